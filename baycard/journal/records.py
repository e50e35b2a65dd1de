"""What the outcomes of one checklist are read from: its standing answers, its facts, photos and sounds."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from baycard.checklists.types import Book, Check, Checklist
from baycard.journal.entry import Body, Entry
from baycard.journal.reading import Reading
from baycard.journal.slots import check_slot, parse_slot
from baycard.journal.standing import Standing
from baycard.measure.units import Units


@dataclass(frozen=True, slots=True)
class Worked:
    """A worked-out answer: the reading, or what it lacks (slots, or words of what is wrong with an input).

    newest: the highest round any input was read in.
    """

    reading: Reading | None = None
    lacks: tuple[str, ...] = ()
    newest: int = 0


class Found(NamedTuple):
    """An answer's body with its round."""

    answer: Body
    round: int


@dataclass(frozen=True, slots=True)
class CardRecords:
    """What is the same for all checklists of a card.

    media: check slot -> the photos and sounds about it; tops: checklist -> the highest round in which anything stands.
    """

    standing: Standing
    media: Mapping[str, tuple[Entry, ...]]
    tops: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Records:
    """What one checklist's outcomes are read from; `worked` holds the worked-out answers found so far, by slot."""

    card: CardRecords
    checklist: Checklist
    book: Book
    units: Units
    checks: Mapping[str, Check]
    worked: dict[str, Worked] = field(default_factory=dict)

    @property
    def standing(self) -> Standing:
        """What stands on the card."""
        return self.card.standing

    @property
    def top(self) -> int:
        """The highest round in which anything stands for this checklist, at least 1."""
        return self.card.tops.get(self.checklist.id, 1)


def records_of(card: CardRecords, checklist: Checklist, book: Book) -> Records:
    """The records of one checklist of a card."""
    checks = {check.id: check for check in checklist.checks}
    return Records(card, checklist, book, Units(book.units), checks)


def card_records(standing: Standing) -> CardRecords:
    """The photos, sounds and highest rounds of a card."""
    media: dict[str, list[Entry]] = {}
    for entries in standing.values():
        for entry in entries:
            slot = medium_slot(entry)
            if slot is not None:
                media.setdefault(slot, []).append(entry)
    tops: dict[str, int] = {}
    for slot in (*standing, *media):
        parsed = parse_slot(slot)
        if parsed and parsed.is_ == "check":
            tops[parsed.checklist] = max(parsed.round, tops.get(parsed.checklist, 1))
    return CardRecords(standing, {slot: tuple(entries) for slot, entries in media.items()}, tops)


def medium_slot(entry: Entry) -> str | None:
    """The check slot, round included, that a photo or sound is about; None for anything else."""
    about = entry.body.get("about") if entry.kind in ("photo", "sound") else None
    if about is None:
        return None
    whole = f"{about}/{entry.body['round']:.0f}" if about.count("/") == 2 else about
    parsed = parse_slot(whole)
    return whole if parsed and parsed.is_ == "check" else None


def answer_up_to(records: Records, check: str, position: str, round: int) -> Found | None:
    """The answer of the highest round up to `round` that has one; None when none has, or there two disagree."""
    for at in range(min(round, records.top), 0, -1):
        entries = records.standing.get(check_slot(records.checklist.id, check, position, at), ())
        if len(entries) > 1:
            return None
        if entries and entries[0].kind == "answer":
            return Found(entries[0].body, at)
    return None


def fact_in(standing: Standing, slot: str) -> Body | None:
    """The fact that alone stands in a slot; None when none does or two disagree."""
    entries = standing.get(slot, ())
    return entries[0].body if len(entries) == 1 and entries[0].kind == "fact" else None


def position_of(check: Check, position: str) -> str:
    """Where a check is read for a step at `position`: the same position if it is asked there, else its only one."""
    return check.at[0] if len(check.at) == 1 else position
