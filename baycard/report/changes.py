"""What is different since the revision before: work done, checks repeated, findings come and gone."""

from baycard.journal.types import CardState, StepState
from baycard.report.findings import work_view
from baycard.report.frozen import EarlierRevision
from baycard.report.readings import asked_rounds, reading_view
from baycard.report.shapes import Changes, FindingView, ReadingView
from baycard.report.telling import Telling


def changes_since(
    earlier: EarlierRevision, before: CardState, findings: tuple[FindingView, ...], telling: Telling
) -> Changes:
    """What `telling.state` holds more than, or other than, the earlier revision whose state is `before`."""
    known = {entry.id for entry in earlier.entries}
    new = [entry for entry in telling.state.entries if entry.id not in known and entry.kind != "signed-off"]
    work = tuple(work_view(entry, telling) for entry in telling.state.work if entry.id not in known)
    had = {finding.slot: str(finding.entry.body["title"]) for finding in before.findings}
    have = {finding.slot for finding in findings}
    return Changes(
        since=_since(earlier, len(new), telling),
        rechecked=tuple(_rechecked(known, telling)),
        new_findings=tuple(finding.title for finding in findings if finding.slot not in had),
        dropped_findings=tuple(title for slot, title in had.items() if slot not in have),
        work=work,
        improvised=tuple(one.improvised for one in work if one.improvised),
        still_beyond=tuple(finding.title for finding in findings if finding.status == "still-beyond"),
        left=tuple(finding.title for finding in findings if finding.status == "to-do"),
        other_entries=len(new),
    )


def _since(earlier: EarlierRevision, number: int, telling: Telling) -> str:
    return telling.words.count(
        "Revision %(revision)s was signed by %(who)s on %(day)s. %(num)s record was added since; none was erased.",
        "Revision %(revision)s was signed by %(who)s on %(day)s. %(num)s records were added since; none was erased.",
        number,
        revision=earlier.signed_off.body["revision"],
        who=telling.name(earlier.signed_off.author),
        day=telling.words.date(earlier.signed_off.made_at),
    )


def _rechecked(known: set[str], telling: Telling) -> list[tuple[ReadingView, ReadingView]]:
    pairs = []
    for checklist in telling.state.checklists:
        for step in checklist.steps:
            latest = max(asked_rounds(step), default=1)
            if latest > 1 and _is_new(step, latest, known):
                pairs.append((reading_view(step, 1, telling), reading_view(step, latest, telling)))
    return pairs


def _is_new(step: StepState, round: int, known: set[str]) -> bool:
    standing = step.rounds[round - 1].standing
    if standing:
        return any(entry.id not in known for entry in standing)
    return step.rounds[round - 1].own != step.rounds[0].own
