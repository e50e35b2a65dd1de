"""Findings put into words: the grade, the evidence as found and after work, and what came of them."""

from collections.abc import Iterable

from baycard.journal.entry import Entry
from baycard.journal.types import Finding, StepState
from baycard.report.readings import asked_rounds, reading_view
from baycard.report.shapes import FindingView, PhotoView, ReadingView, RoundView, Status, WorkView
from baycard.report.telling import Telling


def finding_view(finding: Finding, number: int, telling: Telling) -> FindingView:
    """One finding; `number` is its place in the list, worst first."""
    body, words = finding.entry.body, telling.words
    step = _step(body["about"], telling)
    rounds = _rounds(finding, step, telling)
    status = _status(finding, rounds)
    return FindingView(
        slot=finding.slot,
        number=number,
        mark=body["grade"],
        grade=_grade(body["grade"], status, telling),
        title=str(body["title"]),
        plain=str(body["plain"]),
        place=telling.place(body["place"]) if body["place"] else "",
        status=status,
        status_words=_status_words(status, telling),
        rounds=rounds,
        agreed=_agreed(finding, telling),
        work=tuple(work_view(entry, telling) for entry in finding.work),
        complaints=tuple(one.words for one in telling.state.complaints if one.id in body["complaints"]),
        note=str(body["note"]),
        proposed=_proposed(finding, telling),
        others=tuple(_other(entry, telling) for entry in finding.standing if entry.id != finding.entry.id),
        recorded=words.say("Recorded by %(who)s", who=telling.recorded(finding.entry)),
    )


def _grade(grade: str, status: Status, telling: Telling) -> str:
    """The grade; where work was done and no check contradicts it, it is said to be that of how things were found."""
    said = telling.grade(grade)
    return said if status in ("to-do", "still-beyond") else telling.words.say("As found: %(grade)s", grade=said)


def work_view(entry: Entry, telling: Telling) -> WorkView:
    """One piece of work with its parts."""
    say = telling.words.say
    states = {"new": say("new"), "re-used": say("re-used"), "repaired": say("repaired")}
    parts = tuple(f"{part['count']:g} × {part['name']} ({states[part['state']]})" for part in entry.body["parts"])
    return WorkView(
        words=str(entry.body["words"]),
        parts=parts,
        torque=str(entry.body["torque"]),
        improvised=str(entry.body["improvised"]),
        recorded=telling.recorded(entry),
    )


def _step(about: str | None, telling: Telling) -> StepState | None:
    for checklist in telling.state.checklists:
        for step in checklist.steps:
            if about == f"{step.step.checklist}/{step.step.check.id}/{step.step.place.id}":
                return step
    return None


def _rounds(finding: Finding, step: StepState | None, telling: Telling) -> tuple[RoundView, ...]:
    """As found and, when the check was repeated or photographed after work, the latest round."""
    readings = {round: reading_view(step, round, telling) for round in asked_rounds(step)} if step else {}
    photos = _photos(finding, telling)
    later = max([*readings, *photos], default=1)
    shown = [1] if later == 1 else [1, later]
    views = [_round(round, readings.get(round), photos.get(round, []), telling) for round in shown]
    return tuple(view for view in views if view.reading or view.photos)


def _round(round: int, reading: ReadingView | None, photos: list[PhotoView], telling: Telling) -> RoundView:
    return RoundView(telling.when(round), reading, tuple(photos))


def _photos(finding: Finding, telling: Telling) -> dict[int, list[PhotoView]]:
    """Photos by round: those the finding names, and those about it or about its check."""
    found: dict[int, list[PhotoView]] = {}
    for entry in photos_of(finding, telling.state.photos):
        found.setdefault(int(entry.body["round"]), []).append(telling.photo(entry, str(finding.entry.body["title"])))
    return found


def photos_of(finding: Finding, photos: Iterable[Entry]) -> list[Entry]:
    """The photo entries that belong to a finding."""
    body = finding.entry.body
    named = {f"photo/{id}" for id in body["photos"]}
    checked = f"{body['about']}/" if body["about"] else None
    return [
        entry
        for entry in photos
        if entry.slot in named
        or entry.body["about"] == finding.slot
        or (checked and str(entry.body["about"] or "").startswith(checked))
    ]


def _status(finding: Finding, rounds: tuple[RoundView, ...]) -> Status:
    if not finding.work:
        return "to-do"
    if finding.entry.body["about"] is None:
        return "done"
    again = rounds[-1].reading if len(rounds) > 1 else None
    if again is None:
        return "done-not-rechecked"
    return "done" if again.mark in ("in-order", "recorded") else "still-beyond"


def _status_words(status: Status, telling: Telling) -> str:
    say = telling.words.say
    return {
        "to-do": say("Not repaired yet."),
        "done": say("Done."),
        "done-not-rechecked": say("Work was done; the check has not been repeated."),
        "still-beyond": say("Work was done, but the check is still not in order."),
    }[status]


def _agreed(finding: Finding, telling: Telling) -> str:
    if finding.agreed is None:
        return ""
    say, body = telling.words.say, finding.agreed.body
    answer = {"go-ahead": say("go ahead"), "not-now": say("not now"), "no": say("no")}[body["answer"]]
    how = {"in person": say("in person"), "by phone": say("by phone"), "in writing": say("in writing")}[body["how"]]
    day = telling.words.date(finding.agreed.made_at)
    by = str(body["by"])
    if by:
        return say("Answer of %(by)s %(how)s on %(day)s: %(answer)s.", by=by, how=how, day=day, answer=answer)
    return say("Your answer %(how)s on %(day)s: %(answer)s.", how=how, day=day, answer=answer)


def _proposed(finding: Finding, telling: Telling) -> str:
    proposed = finding.entry.body["proposed"]
    if not proposed or proposed["grade"] == finding.entry.body["grade"]:
        return ""
    grade = telling.graded(proposed["grade"])
    return telling.words.say(
        "The limit alone would make this: %(grade)s. The technician judged otherwise.", grade=grade
    )


def _other(entry: Entry, telling: Telling) -> str:
    if entry.kind != "finding":
        return telling.words.say("not a finding: %(why)s", why=str(entry.body.get("words", "")))
    return f"{entry.body['title']} ({telling.grade(entry.body['grade'])}; {telling.recorded(entry)})"
