"""Collects a signed revision from the store, in the form the report takes it."""

import json
from dataclasses import dataclass

from baycard.checklists.from_json import checklist_from_json
from baycard.checklists.types import Checklist
from baycard.desk.sign_off import pinned_checklists
from baycard.journal.entry import Entry
from baycard.journal.standing import standing
from baycard.report.frozen import Blobs, EarlierRevision, FrozenCard
from baycard.store.checklists import published
from baycard.store.door import Store, Tx
from baycard.store.entries import entries_of_card, kept_entries
from baycard.store.people import people_of
from baycard.store.revisions import revision
from baycard.store.values import Revision, Workshop
from baycard.sync.print_photo import print_photo


@dataclass(frozen=True, slots=True)
class Signed:
    """A revision and its frozen card."""

    revision: Revision
    card: FrozenCard


def signed_card(store: Store, workshop: Workshop, card: str, number: int) -> Signed | None:
    """A signed revision of a card of this workshop."""
    with store.read() as tx:
        found = revision(tx, workshop.id, card, number)
        if found is None:
            return None
        signed_off, entries = _revision(tx, found)
        before = revision(tx, workshop.id, card, number - 1)
        frozen = FrozenCard(
            card=card,
            workshop=workshop.name,
            entries=entries,
            signed_off=signed_off,
            checklists=_checklists(tx, entries),
            names={person.id: person.name for person in people_of(tx, workshop.id)},
            blobs=_blobs(store, workshop.id),
            earlier=EarlierRevision(*_revision(tx, before)) if before else None,
        )
    return Signed(found, frozen)


def _revision(tx: Tx, made: Revision) -> tuple[Entry, tuple[Entry, ...]]:
    signed_off = kept_entries(tx, [made.entry])[made.entry].entry
    return signed_off, tuple(kept.entry for kept in entries_of_card(tx, made.workshop, made.card, made.arrival))


def _checklists(tx: Tx, entries: tuple[Entry, ...]) -> tuple[Checklist, ...]:
    pins = pinned_checklists(standing(entries))
    found = [published(tx, pin.id, pin.version) for pin in pins]
    return tuple(checklist_from_json(json.loads(content)) for _, content in filter(None, found))


def _blobs(store: Store, workshop: str) -> Blobs:
    def small_picture(sha256: str) -> bytes | None:
        path = print_photo(store.blobs, workshop, sha256)
        return path.read_bytes() if path else None

    return small_picture
