"""Findings, worst first, with what was agreed and done; and those that a limit or an option proposes."""

from collections.abc import Iterable

from baycard.journal.entry import Entry
from baycard.journal.grades import GRADE_RANK
from baycard.journal.slots import finding_slot_for
from baycard.journal.standing import Standing
from baycard.journal.types import ChecklistState, Finding, Proposal, StepState


def standing_of_kind(standing: Standing, kind: str) -> tuple[Entry, ...]:
    """Entries of one kind that stand, oldest id first."""
    found = (entry for entries in standing.values() for entry in entries if entry.kind == kind)
    return tuple(sorted(found, key=lambda entry: entry.id))


def findings_of(standing: Standing) -> tuple[Finding, ...]:
    """One finding for each slot in which one stands; of two written apart the worse one speaks.

    Worst first, then oldest.
    """
    work = standing_of_kind(standing, "work-done")
    findings = []
    for slot, entries in standing.items():
        written = sorted((entry for entry in entries if entry.kind == "finding"), key=_worst_first)
        if written:
            done = tuple(entry for entry in work if slot in entry.body["findings"])
            findings.append(Finding(slot, written[0], entries, alone_in(standing, f"agreed/{slot}", "agreed"), done))
    return tuple(sorted(findings, key=lambda finding: _worst_first(finding.entry)))


def _worst_first(finding: Entry) -> tuple[int, str]:
    return GRADE_RANK[finding.body["grade"]], finding.id


def alone_in(standing: Standing, slot: str, kind: str) -> Entry | None:
    """The entry that alone stands in a slot, if it is of that kind; None when none does or two disagree."""
    entries = standing.get(slot, ())
    return entries[0] if len(entries) == 1 and entries[0].kind == kind else None


def declined_of(standing: Standing) -> tuple[Entry, ...]:
    """Proposals that stand declined, where no finding stands beside them."""
    declined = standing_of_kind(standing, "finding-declined")
    return tuple(entry for entry in declined if all(one.kind != "finding" for one in standing[entry.slot]))


def proposals_of(checklists: Iterable[ChecklistState], standing: Standing) -> tuple[Proposal, ...]:
    """Steps beyond a limit whose finding nobody has accepted or declined; the latest such round of each."""
    return tuple(proposal for state in checklists for proposal in _proposals(state, standing))


def _proposals(state: ChecklistState, standing: Standing) -> Iterable[Proposal]:
    at = {(one.step.check.id, one.step.place.id): one for one in state.steps}
    for one in state.steps:
        check, place = one.step.check, one.step.place
        slot = finding_slot_for(state.checklist.id, check.id, place.id)
        round = _beyond_in(one)
        if round == 0 or _is_answered(standing, slot):
            continue
        pair = at.get((check.id, place.pair or ""))
        if pair is None or not _is_of_the_pair(one, pair, round):
            yield Proposal(slot, one.step, round, one.rounds[round - 1])


def _beyond_in(state: StepState) -> int:
    rounds = (number for number, outcome in enumerate(state.rounds, 1) if outcome.state == "beyond")
    return max(rounds, default=0)


def _is_answered(standing: Standing, slot: str) -> bool:
    return any(entry.kind in ("finding", "finding-declined") for entry in standing.get(slot, ()))


def _is_of_the_pair(state: StepState, pair: StepState, round: int) -> bool:
    """A difference between the sides is proposed once, at the side that comes first in the check."""
    because, check = state.rounds[round - 1].because, state.step.check
    is_difference = any(limit.id == because and limit.of == "side-difference" for limit in check.limits)
    is_second = check.at.index(pair.step.place.id) < check.at.index(state.step.place.id)
    same_there = any(outcome.state == "beyond" and outcome.because == because for outcome in pair.rounds)
    return is_difference and is_second and same_there
