"""Takes in a batch of entries: each is judged alone, all that are kept are kept in one transaction."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from baycard.journal.entry import Entry
from baycard.store.door import Store, Tx
from baycard.store.entries import Arrived, add_cards, add_entries, kept_entries, owners_of_cards
from baycard.store.people import devices_among, people_among
from baycard.store.values import SignedIn
from baycard.store.workshops import hold_counter, move_counter
from baycard.sync.read_entry import Read, Refused, read_entry

BATCH_MAX = 1_000


class Kept(NamedTuple):
    """An entry that is on the disk; `again` when it was there before."""

    id: str
    arrival: int
    again: bool


Outcome = Kept | Refused


def accept(store: Store, who: SignedIn, raw_entries: Sequence[object]) -> list[Outcome]:
    """Keep what can be kept; one outcome per entry, in the order they came.

    When this returns, every `Kept` entry is on the disk.
    """
    return keep(store, who.workshop.id, [read_entry(raw, who.person.role) for raw in raw_entries])


def keep(
    store: Store, workshop: str, read: Sequence[Read | Refused], *, brought_from: str | None = None
) -> list[Outcome]:
    """Keep what was read and can be kept, all in one transaction; one outcome each, in their order.

    brought_from: the device whose file the foreman takes in, and so decides: what a device recorded is taken although
    it is shut out, and what this one recorded although a database that was put back has forgotten it.
    """
    good = [entry for entry in read if isinstance(entry, Read)]
    if not good:
        return [entry for entry in read if isinstance(entry, Refused)]
    with store.write() as tx:
        judged = _Batch(tx, workshop, good, brought_from)
        outcomes = [judged.outcome(entry) if isinstance(entry, Read) else entry for entry in read]
        judged.keep()
    return outcomes


class _Batch:
    """One batch inside its transaction: what is known already, and what will be added at the end."""

    def __init__(self, tx: Tx, workshop: str, read: Sequence[Read], brought_from: str | None) -> None:
        self._tx = tx
        self._brought_from = brought_from
        self._workshop = workshop
        self._arrival = self._arrival_before = hold_counter(tx, workshop)
        self._known = {
            id_: (kept.entry, kept.arrival, kept.workshop)
            for id_, kept in kept_entries(tx, {line.entry.id for line in read}).items()
        }
        self._owners = owners_of_cards(tx, {line.entry.card for line in read})
        self._people = people_among(tx, workshop, {line.entry.author for line in read})
        self._shut_out = devices_among(tx, workshop, {line.entry.device for line in read})
        self._new_cards: list[str] = []
        self._arrived: list[Arrived] = []

    def outcome(self, read: Read) -> Outcome:
        """What becomes of one entry that was judged sound."""
        entry = read.entry
        known = self._known.get(entry.id)
        if known is not None:
            same = known[0] == entry and known[2] == self._workshop
            return Kept(entry.id, known[1], again=True) if same else Refused(entry.id, "id-conflict")
        code = self._objection(entry)
        if code is not None:
            return Refused(entry.id, code)
        return self._take(read)

    def keep(self) -> None:
        """Write everything that was taken."""
        if self._arrival == self._arrival_before:
            return
        add_cards(self._tx, self._workshop, self._new_cards)
        add_entries(self._tx, self._workshop, self._arrived)
        move_counter(self._tx, self._workshop, self._arrival)

    def _objection(
        self, entry: Entry
    ) -> Literal["other-workshop", "unknown-author", "unknown-device", "device-revoked"] | None:
        if self._owners.get(entry.card, self._workshop) != self._workshop:
            return "other-workshop"
        if entry.author not in self._people:
            return "unknown-author"
        shut_out = self._shut_out.get(entry.device)
        if shut_out is None:
            return None if entry.device == self._brought_from else "unknown-device"
        return "device-revoked" if shut_out and self._brought_from is None else None

    def _take(self, read: Read) -> Kept:
        entry = read.entry
        self._arrival += 1
        if entry.card not in self._owners:
            self._owners[entry.card] = self._workshop
            self._new_cards.append(entry.card)
        self._known[entry.id] = (entry, self._arrival, self._workshop)
        self._arrived.append(Arrived(entry, read.body, self._arrival))
        return Kept(entry.id, self._arrival, again=False)
