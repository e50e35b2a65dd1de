"""What is not known or not decided: not checked, too close, not judged, in disagreement, left unanswered."""

from dataclasses import replace

from baycard.journal.types import StepState
from baycard.report.outcomes import steps_of
from baycard.report.readings import asked_rounds, reading_view, unanswered
from baycard.report.shapes import OpenPoints, ReadingView
from baycard.report.telling import Telling


def open_points(telling: Telling) -> OpenPoints:
    """Everything on the card that a reader must not take for settled."""
    return OpenPoints(
        not_checked=_in_state(telling, "not-checked"),
        unanswered=_unanswered(telling),
        questions_left=sum(checklist.open for checklist in telling.state.checklists),
        disagreements=_in_state(telling, "disagreement"),
        undecided=_undecided(telling),
        too_close=_in_state(telling, "too-close"),
        declined=tuple(
            (_declined_title(one.slot, telling), f"{one.body['words']} ({telling.recorded(one)})")
            for one in telling.state.declined
        ),
    )


def _in_state(telling: Telling, state: str) -> tuple[ReadingView, ...]:
    """The latest reading of each step, where that is in this state."""
    found = []
    for step in steps_of(telling.state):
        latest = max(asked_rounds(step), default=None)
        if latest and step.rounds[latest - 1].state == state:
            found.append(reading_view(step, latest, telling))
    return tuple(found)


def _unanswered(telling: Telling) -> tuple[ReadingView, ...]:
    lines = (unanswered(checklist, telling) for checklist in telling.state.checklists)
    return tuple(line for line in lines if line)


def _undecided(telling: Telling) -> tuple[ReadingView, ...]:
    """Proposals beyond a limit; those too close to call have a section of their own."""
    steps = {(step.step.checklist, step.step.check.id, step.step.place.id): step for step in steps_of(telling.state)}
    found = []
    for proposal in telling.state.proposals:
        step = steps.get((proposal.step.checklist, proposal.step.check.id, proposal.step.place.id))
        if step and proposal.outcome.state == "beyond":
            found.append(_with_later(step, proposal.round, telling))
    return tuple(found)


def _with_later(step: StepState, round: int, telling: Telling) -> ReadingView:
    """The reading of that round, and what the same check gave later, where it was repeated."""
    view, latest = reading_view(step, round, telling), max(asked_rounds(step), default=round)
    if latest <= round:
        return view
    later = reading_view(step, latest, telling)
    told = " · ".join(filter(None, (later.value, later.state)))
    return replace(view, note="\n".join(filter(None, (view.note, f"{later.when} · {told}"))))


def _declined_title(slot: str, telling: Telling) -> str:
    for step in steps_of(telling.state):
        if slot == f"finding/at/{step.step.checklist}/{step.step.check.id}/{step.step.place.id}":
            return f"{step.step.check.ask} ({step.step.place.title})"
    return ""
