"""The signed card as the report takes it: handed in whole, so that rendering looks nothing up."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from baycard.checklists.types import Checklist
from baycard.journal.entry import Entry

Blobs = Callable[[str], bytes | None]
"""SHA-256 of a blob -> the photo at print size (longest edge 800 px), or None when it has not arrived."""


@dataclass(frozen=True, slots=True)
class EarlierRevision:
    """A revision signed before this one: its sign-off entry and its frozen set."""

    signed_off: Entry
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class FrozenCard:
    """One revision of one card.

    entries: every entry of the card with an arrival number up to that of the sign-off; signed_off: the sign-off itself;
    checklists: those the card has pinned, in their pinned versions; names: person id -> name;
    earlier: the revision before, None in a first.
    """

    card: str
    workshop: str
    entries: tuple[Entry, ...]
    signed_off: Entry
    checklists: tuple[Checklist, ...]
    names: Mapping[str, str]
    blobs: Blobs
    earlier: EarlierRevision | None = None

    @property
    def revision(self) -> int:
        """1 for the first sign-off, then 2 and up."""
        return int(self.signed_off.body["revision"])
