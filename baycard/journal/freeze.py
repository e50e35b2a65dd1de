"""The hash that a sign-off puts over a card's entries and the checklist versions they answer."""

import hashlib
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

import rfc8785

from baycard.journal.entry import Entry, entry_to_json


@dataclass(frozen=True, slots=True)
class PinnedChecklist:
    """A checklist version by its hash."""

    id: str
    version: int
    sha256: str


def frozen_bytes(card: str, checklists: Iterable[PinnedChecklist], entries: Iterable[Entry]) -> bytes:
    """The canonical JSON (RFC 8785) that is hashed: card, checklists by id, entries by id."""
    document: dict[str, Any] = {
        "card": card,
        "checklists": [asdict(pinned) for pinned in sorted(checklists, key=lambda pinned: pinned.id)],
        "entries": [entry_to_json(entry) for entry in sorted(entries, key=lambda entry: entry.id)],
    }
    return rfc8785.dumps(document)


def freeze(card: str, checklists: Iterable[PinnedChecklist], entries: Iterable[Entry]) -> str:
    """SHA-256 in hex over `frozen_bytes`; the order in which the parts are handed in does not matter."""
    return hashlib.sha256(frozen_bytes(card, checklists, entries)).hexdigest()
