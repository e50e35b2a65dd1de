"""Each check at each place in each round, put into words."""

from collections.abc import Iterator

from baycard.checklists.types import WorkedOutAnswer
from baycard.journal.entry import Entry
from baycard.journal.types import ChecklistState, StepState
from baycard.report.outcomes import mark_of, say_basis, say_limits, say_state, say_value, say_version
from baycard.report.shapes import ChecklistView, ReadingView, StationView
from baycard.report.telling import Telling


def reading_view(step: StepState, round: int, telling: Telling) -> ReadingView:
    """The step's reading in that round (1 = as found)."""
    outcome, check = step.rounds[round - 1], step.step.check
    standing = outcome.standing
    return ReadingView(
        slot=outcome.slot,
        ask=check.ask,
        place=step.step.place.title,
        round=round,
        when=telling.when(round),
        mark=mark_of(outcome),
        state=say_state(outcome, telling),
        value=say_value(outcome, check, telling),
        limit=say_limits(outcome, check, telling),
        source=say_basis(outcome, check, telling),
        recorded=telling.recorded(standing[0]) if len(standing) == 1 else _worked_out(standing, telling),
        note=_note(standing),
        others=tuple(say_version(entry, check, telling) for entry in standing if outcome.state == "disagreement"),
    )


def asked_rounds(step: StepState) -> Iterator[int]:
    """The rounds in which something stands or was worked out."""
    for round, outcome in enumerate(step.rounds, start=1):
        if outcome.state not in ("open", "not-asked"):
            yield round


def checklist_view(checklist: ChecklistState, telling: Telling) -> ChecklistView:
    """A checklist with all its readings, station by station in walking order."""
    stations: dict[str, list[ReadingView]] = {}
    for step in checklist.steps:
        views = [reading_view(step, round, telling) for round in asked_rounds(step)]
        if views:
            stations.setdefault(step.step.station.title, []).extend(views)
    told = checklist.checklist
    return ChecklistView(
        title=told.title,
        why=told.why,
        version=telling.words.say("Version %(n)s of this checklist.", n=told.version),
        not_instead_of=told.not_instead_of,
        stations=tuple(StationView(title, tuple(views)) for title, views in stations.items()),
    )


def unanswered(checklist: ChecklistState, telling: Telling) -> ReadingView | None:
    """One line for all questions of a checklist that nobody answered, or None when there are none."""
    steps = unanswered_steps(checklist)
    if not steps:
        return None
    asked: dict[str, list[StepState]] = {}
    for step in steps:
        asked.setdefault(step.step.check.id, []).append(step)
    words = telling.words
    return ReadingView(
        slot=checklist.checklist.id,
        ask=checklist.checklist.title,
        place="",
        round=1,
        when=telling.when(1),
        mark="open",
        state=words.say("no answer was recorded"),
        value=words.count("%(num)s question", "%(num)s questions", len(steps)),
        limit="",
        source="",
        recorded="",
        note=" · ".join(_unasked(of_check) for of_check in asked.values()),
        others=(),
    )


def unanswered_steps(checklist: ChecklistState) -> list[StepState]:
    """The questions that nobody answered as found; what is worked out from them is no question of its own."""
    asked = (step for step in checklist.steps if not isinstance(step.step.check.answer, WorkedOutAnswer))
    return [step for step in asked if step.rounds and step.rounds[0].state == "open"]


def _unasked(steps: list[StepState]) -> str:
    """The question, and where it was not answered, unless that is everywhere."""
    check = steps[0].step.check
    places = ", ".join(step.step.place.title for step in steps)
    return check.ask if len(steps) == len(check.at) else f"{check.ask} ({places})"


def _worked_out(standing: tuple[Entry, ...], telling: Telling) -> str:
    if standing and standing[0].kind in ("photo", "sound"):
        return telling.recorded(standing[0])
    return "" if standing else telling.words.say("worked out from other readings")


def _note(standing: tuple[Entry, ...]) -> str:
    return str(standing[0].body.get("note", "")) if len(standing) == 1 and standing[0].kind == "answer" else ""
