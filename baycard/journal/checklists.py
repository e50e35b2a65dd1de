"""The checklists chosen for a card, with every step in every round."""

from collections.abc import Callable
from dataclasses import dataclass

from baycard.checklists.types import Book, Checklist
from baycard.journal.records import CardRecords, Records, records_of
from baycard.journal.standing import Standing
from baycard.journal.steps import steps
from baycard.journal.types import ChecklistState, MissingChecklist, Step, StepOutcome, StepState
from baycard.journal.verdicts import outcome_in

ChecklistOf = Callable[[str, int], Checklist | None]
"""Finds a published version of a checklist; None when it is not held."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The checklists chosen for a card, and those that are not held here."""

    checklists: tuple[Checklist, ...]
    missing: tuple[MissingChecklist, ...]


def chosen_of(standing: Standing, checklist_of: ChecklistOf) -> Chosen:
    """The pinned versions, by checklist id; of two that disagree the higher one. One with another hash is missing."""
    found: list[Checklist] = []
    missing: list[MissingChecklist] = []
    for slot, entries in standing.items():
        pinned = [entry.body for entry in entries if entry.kind == "checklist-chosen"]
        if not pinned:
            continue
        id = slot.removeprefix("card/checklist/")
        body = max(pinned, key=lambda body: int(body["version"]))
        checklist = checklist_of(id, body["version"])
        if checklist and checklist.sha256 == body["sha256"]:
            found.append(checklist)
        else:
            missing.append(MissingChecklist(id, body["version"]))
    return Chosen(tuple(found), tuple(missing))


def checklist_state(card: CardRecords, checklist: Checklist, book: Book) -> ChecklistState:
    """The state of one checklist: its steps in walking order, each with its rounds."""
    records = records_of(card, checklist, book)
    states = tuple(StepState(step, _rounds(step, records)) for step in steps(checklist, book))
    firsts = [one.rounds[0].state for one in states if one.step.check.answer.kind != "worked-out"]
    still_open = firsts.count("open") + firsts.count("disagreement")
    return ChecklistState(checklist, states, still_open, len(firsts) - still_open - firsts.count("not-asked"))


def _rounds(step: Step, records: Records) -> tuple[StepOutcome, ...]:
    """As found first; later rounds up to the last one in which anything is known."""
    rounds = [outcome_in(step, number, records) for number in range(1, records.top + 1)]
    while len(rounds) > 1 and rounds[-1].state in ("open", "not-asked") and not rounds[-1].standing:
        rounds.pop()
    return tuple(rounds)


def round_of(card: CardRecords, *, work_was_done: bool) -> int:
    """The round new answers belong to: 1 until work was recorded, then 2 or the highest any answer is in."""
    return max([2, *card.tops.values()]) if work_was_done else 1
