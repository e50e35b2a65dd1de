"""The part of a card's state that both languages must compute alike, as plain JSON."""

from typing import Any

from baycard.journal.types import CardState, ChecklistState, Finding, Stage, StepOutcome


def project(state: CardState) -> dict[str, Any]:
    """The card's state with entries by their id; the same keys as the phone's projection."""
    return {
        "card": state.card,
        "round": state.round,
        "stage": _stage(state.stage),
        "facts": {slot: body["value"] for slot, body in state.facts.items()},
        "complaints": [
            [one.id, one.words, one.outcome.id if one.outcome else None, list(one.findings)] for one in state.complaints
        ],
        "checklists": [_checklist(one) for one in state.checklists],
        "findings": [_finding(one) for one in state.findings],
        "proposals": [[one.slot, one.round, one.outcome.because, one.outcome.grade] for one in state.proposals],
        "declined": [one.id for one in state.declined],
        "not_checked": [[one.step.check.id, one.step.place.id, one.round, one.entry.id] for one in state.not_checked],
        "photos": [one.id for one in state.photos],
        "sounds": [one.id for one in state.sounds],
        "work": [one.id for one in state.work],
        "disagreements": list(state.disagreements),
        "missing": [[one.id, one.version] for one in state.missing_checklists],
    }


def _stage(stage: Stage) -> dict[str, Any]:
    return {
        "is": stage.is_,
        "entry": stage.entry.id if stage.entry else None,
        "changed_since": stage.changed_since,
        "standing": [one.id for one in stage.standing],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "slot": finding.slot,
        "entry": finding.entry.id,
        "grade": finding.entry.body["grade"],
        "standing": [one.id for one in finding.standing],
        "agreed": finding.agreed.id if finding.agreed else None,
        "work": [one.id for one in finding.work],
    }


def _checklist(state: ChecklistState) -> dict[str, Any]:
    return {
        "id": state.checklist.id,
        "version": state.checklist.version,
        "open": state.open,
        "done": state.done,
        "steps": [
            {"station": one.step.station.id, "rounds": [outcome_json(outcome) for outcome in one.rounds]}
            for one in state.steps
        ],
    }


def outcome_json(outcome: StepOutcome) -> dict[str, Any]:
    """An outcome without what is empty, so that the vectors stay readable."""
    settle = outcome.settle
    full = {
        "slot": outcome.slot,
        "state": outcome.state,
        "standing": [one.id for one in outcome.standing],
        "value": outcome.value,
        "u": outcome.u,
        "unit": outcome.unit,
        "own": _own(outcome),
        "lacks": list(outcome.lacks),
        "limits": [[one.limit.id, one.state, one.bound] for one in outcome.limits],
        "grade": outcome.grade,
        "title": outcome.title,
        "plain": outcome.plain,
        "because": outcome.because,
        "settle": {"repeats": settle.repeats, "instrument": settle.instrument} if settle else None,
    }
    return {name: value for name, value in full.items() if value not in (None, [])}


def _own(outcome: StepOutcome) -> list[Any] | None:
    """The step's own number, where the judged one is another."""
    own = outcome.own
    if own is None or (own.value, own.u, own.unit) == (outcome.value, outcome.u, outcome.unit):
        return None
    return [own.value, own.u, own.unit]
