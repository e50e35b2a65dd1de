"""What the server holds of one card, so that a phone can compare."""

from dataclasses import dataclass

from baycard.journal.digest import digest
from baycard.journal.formats import present
from baycard.store.blobs import held
from baycard.store.door import Store
from baycard.store.entries import entries_of_card


@dataclass(frozen=True, slots=True)
class CardHeld:
    """Count and digest of the entries, and each blob they mention with whether it is here in full."""

    count: int
    digest: str
    blobs: list[tuple[str, bool]]


def card_held(store: Store, workshop: str, card: str) -> CardHeld:
    """What is held of a card; a card nobody knows holds nothing."""
    with store.read() as tx:
        entries = [kept.entry for kept in entries_of_card(tx, workshop, card)]
        hashes = sorted(
            {str(entry.body["blob"]) for entry in map(present, entries) if entry.kind in {"photo", "sound"}}
        )
        here = {sha256 for sha256 in held(tx, workshop, hashes) if store.blobs.has(workshop, sha256)}
    return CardHeld(
        len(entries), digest(entry.id for entry in entries), [(sha256, sha256 in here) for sha256 in hashes]
    )
