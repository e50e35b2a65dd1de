"""A card's state, computed from its entries and the book by pure functions."""

from collections.abc import Iterable, Mapping, Sequence

from baycard.checklists.types import Book
from baycard.journal.checklists import ChecklistOf, checklist_state, chosen_of, round_of
from baycard.journal.complaints import complaints_of
from baycard.journal.entry import Body, Entry
from baycard.journal.findings import declined_of, findings_of, proposals_of, standing_of_kind
from baycard.journal.records import card_records
from baycard.journal.stage import stage_of
from baycard.journal.standing import Standing, disagreements
from baycard.journal.standing import standing as standing_of
from baycard.journal.types import CardState, ChecklistState, NotChecked


def card_state(entries: Iterable[Entry], book: Book, checklist_of: ChecklistOf | None = None) -> CardState:
    """Everything computed from the entries of one card.

    checklist_of finds any published version of a checklist; without it only those of the book are known.
    """
    held = tuple(entries)
    standing = standing_of(held)
    records = card_records(standing)
    chosen = chosen_of(standing, checklist_of or book.checklist)
    checklists = tuple(checklist_state(records, checklist, book) for checklist in chosen.checklists)
    findings = findings_of(standing)
    work = standing_of_kind(standing, "work-done")
    return CardState(
        card=held[0].card if held else "",
        entries=held,
        standing=standing,
        facts=_facts(standing),
        complaints=complaints_of(standing, findings),
        checklists=checklists,
        findings=findings,
        proposals=proposals_of(checklists, standing),
        declined=declined_of(standing),
        not_checked=_not_checked(checklists),
        photos=standing_of_kind(standing, "photo"),
        sounds=standing_of_kind(standing, "sound"),
        work=work,
        stage=stage_of(standing, held),
        disagreements=tuple(disagreements(standing)),
        missing_checklists=chosen.missing,
        round=round_of(records, work_was_done=bool(work)),
    )


def _facts(standing: Standing) -> Mapping[str, Body]:
    """slot -> the fact standing in it; where two disagree the older one, and the slot is among the disagreements."""
    facts = {
        slot: next((one.body for one in entries if one.kind == "fact"), None) for slot, entries in standing.items()
    }
    return {slot: body for slot, body in facts.items() if body is not None}


def _not_checked(checklists: Sequence[ChecklistState]) -> tuple[NotChecked, ...]:
    return tuple(
        NotChecked(state.step, round, entry)
        for checklist in checklists
        for state in checklist.steps
        for round, outcome in enumerate(state.rounds, 1)
        for entry in outcome.standing
        if entry.kind == "not-checked"
    )
