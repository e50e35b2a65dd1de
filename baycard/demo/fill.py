"""Fills an empty store with the demo workshop, through the doors that real phones and desks use."""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from uuid import uuid4

from baycard.checklists.from_json import to_json
from baycard.checklists.types import Book
from baycard.demo.estate import estate
from baycard.demo.pen import Staff, Story, Writer
from baycard.demo.pickup import pickup_after_work, pickup_as_found
from baycard.demo.van import van
from baycard.desk.sign_off import Drive, Hands, Judgement, sign_off
from baycard.journal.digest import digest
from baycard.journal.entry import Entry, entry_to_json, iso_time
from baycard.people.admit import add_person, add_workshop, set_plate_forms
from baycard.store.checklists import publish
from baycard.store.door import Store
from baycard.store.entries import entries_of_card
from baycard.store.people import add_device
from baycard.store.values import Device, Person, Role, SignedIn, Workshop
from baycard.sync.accept import BATCH_MAX, Kept, accept
from baycard.sync.upload import Complete, Piece, Uploads

WORKSHOP = "Tern Street Garage"
PLATES = ["AA 99 AAA", "AAA 9999", "AA 999 AA"]
PEOPLE: tuple[tuple[str, Role], ...] = (
    ("Ines Varga", "technician"),
    ("Tom Abara", "technician"),
    ("Ruth Okello", "foreman"),
    ("Ola Tern", "owner"),
)
HOUR_MS = 3_600_000


class DemoError(Exception):
    """A door refused what the demo brought: the demo and the rooms no longer fit together."""


@dataclass(frozen=True, slots=True)
class Demo:
    """What was filled in: the workshop, its people with the secret they share, and the cards by name."""

    workshop: Workshop
    people: tuple[Person, ...]
    secret: str
    cards: dict[str, str]


@dataclass(frozen=True, slots=True)
class Filling:
    """The store being filled, who is signed in where, and the random source."""

    store: Store
    crew: dict[str, SignedIn]
    random_bytes: Callable[[int], bytes]

    @property
    def staff(self) -> Staff:
        """The three who write."""
        ines, tom, ruth = (self._writer(name) for name in ("Ines Varga", "Tom Abara", "Ruth Okello"))
        return Staff(ines, tom, ruth)

    def _writer(self, name: str) -> Writer:
        return Writer(self.crew[name].person.id, self.crew[name].device.id)


def fill(store: Store, book: Book, now_ms: int, random_bytes: Callable[[int], bytes], secret: str) -> Demo:
    """Fill a prepared store. now_ms: the moment the last card is left; secret: what all four sign in with.

    Raises DemoError when a door refuses something.
    """
    _publish(store, book)
    workshop = add_workshop(store, WORKSHOP)
    set_plate_forms(store, WORKSHOP, PLATES)
    filling = Filling(store, _crew(store, workshop, now_ms, secret), random_bytes)
    found = van(filling.staff, book, now_ms - 3 * HOUR_MS)
    soft = estate(filling.staff, book, now_ms - 5 * HOUR_MS)
    _send(filling, found)
    _send(filling, soft)
    truck = _pickup(filling, book, now_ms - 50 * HOUR_MS)
    people = tuple(signed.person for signed in filling.crew.values())
    return Demo(workshop, people, secret, {"van": found.card, "estate": soft.card, "pickup": truck.card})


def _publish(store: Store, book: Book) -> None:
    """Keep the checklists' versions as serving the book does: a card is signed only against published ones."""
    with store.write() as tx:
        for checklist in book.checklists:
            if not publish(tx, to_json(checklist)):
                raise DemoError(f"{checklist.id}: version {checklist.version} is published with other content")


def _crew(store: Store, workshop: Workshop, now_ms: int, secret: str) -> dict[str, SignedIn]:
    crew = {}
    for name, role in PEOPLE:
        person = add_person(store, workshop.id, name, role, secret)
        if not isinstance(person, Person):
            raise DemoError(f"{name}: {person}")
        device = Device(str(uuid4()), workshop.id, f"{name.split()[0]}'s phone", revoked=False)
        with store.write() as tx:
            add_device(tx, device, iso_time(now_ms))
        crew[name] = SignedIn(person, device, workshop)
    return crew


def _pickup(filling: Filling, book: Book, start_ms: int) -> Story:
    story, found = pickup_as_found(filling.staff, book, start_ms)
    sent = _send(filling, story)
    _sign(
        filling, story, "no", "", "After the bearing is done.", "The front right wheel bearing has to come out first."
    )
    story.wait(30)
    pickup_after_work(story, found, filling.staff)
    _send(filling, story, sent + 1)
    limits = "Not over 60 mph and no towing until the speed sensor cable has its new clip."
    again = "Clip within two weeks; wheel nuts after 50 miles; engine oil at every fill-up."
    _sign(filling, story, "with-restrictions", limits, again, "")
    return story


def _send(filling: Filling, story: Story, already: int = 0) -> int:
    """Push what is new in a story, and its photos; the number of entries sent so far."""
    who = filling.crew["Ines Varga"]
    new = story.entries[already:]
    for at in range(0, len(new), BATCH_MAX):
        _push(filling.store, who, new[at : at + BATCH_MAX])
    uploads = Uploads(filling.store, lambda: iso_time(story.now_ms))
    for data in story.photos.values():
        sha256 = hashlib.sha256(data).hexdigest()
        done = uploads.append(Piece(who.workshop.id, sha256, 0, len(data), BytesIO(data)))
        if not isinstance(done, Complete):
            raise DemoError(f"photo {sha256}: {done}")
    return len(story.entries)


def _push(store: Store, who: SignedIn, entries: Sequence[Entry]) -> None:
    for outcome in accept(store, who, [entry_to_json(entry) for entry in entries]):
        if not isinstance(outcome, Kept):
            slot = next(entry.slot for entry in entries if entry.id == outcome.id)
            raise DemoError(f"{slot}: {outcome.code} {outcome.title}")


def _sign(filling: Filling, story: Story, drive: Drive, restrictions: str, look_again: str, words: str) -> None:  # noqa: PLR0913, PLR0917
    ruth = filling.crew["Ruth Okello"]
    story.wait(20)
    with filling.store.read() as tx:
        ids = [kept.entry.id for kept in entries_of_card(tx, ruth.workshop.id, story.card)]
    judgement = Judgement(len(ids), digest(ids), drive, restrictions, look_again, words)
    signed = sign_off(filling.store, ruth, story.card, judgement, Hands(lambda: story.now_ms, filling.random_bytes))
    if not isinstance(signed, Entry):
        raise DemoError(f"sign-off: {signed}")
    story.entries.append(signed)
