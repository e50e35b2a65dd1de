"""Who may come in: adding people and workshops, new secrets, letting people go, shutting devices out and in again."""

import re
from datetime import UTC, datetime
from typing import Literal
from uuid import uuid4

from baycard.people.plate_forms import checked_forms
from baycard.people.secrets import hash_secret, matches, weakness
from baycard.store import people, sessions, workshops
from baycard.store.door import Store
from baycard.store.values import Device, Person, Role, Workshop

PERSON_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
Refused = Literal[
    "unknown-person", "unknown-device", "not-yourself", "name-taken", "id-taken", "weak-secret", "wrong-secret"
]


def add_workshop(store: Store, name: str, units: Literal["metric", "us"] = "metric") -> Workshop:
    """Enter a workshop."""
    made = Workshop(str(uuid4()), name, units)
    with store.write() as tx:
        workshops.add_workshop(tx, made)
    return made


def workshop_named(store: Store, name: str, units: Literal["metric", "us"] = "metric") -> Workshop:
    """The workshop of that name, entered now if it is new."""
    with store.read() as tx:
        found = next((shop for shop in workshops.workshops(tx) if shop.name == name), None)
    return found or add_workshop(store, name, units)


def set_plate_forms(store: Store, name: str, forms: list[str]) -> tuple[str, ...]:
    """Say how plates look where the workshop is. Raises ValueError for what is no form or no workshop."""
    checked = checked_forms(forms)
    with store.write() as tx:
        found = next((shop for shop in workshops.workshops(tx) if shop.name == name), None)
        if found is None:
            raise ValueError(f"There is no workshop named {name} here.")
        workshops.set_plate_forms(tx, found.id, checked)
    return checked


def add_person(  # noqa: PLR0913, PLR0917  # what a person is
    store: Store, workshop: str, name: str, role: Role, secret: str, id_: str | None = None
) -> Person | Refused:
    """Enter a person. The name must be free in the workshop, the secret good enough.

    id_: the id of somebody whom a database that was put back has forgotten; entries on phones name that one.
    """
    if id_ is not None and not PERSON_ID.fullmatch(id_):
        return "id-taken"
    if weakness(secret, name):
        return "weak-secret"
    made = Person(id_ or str(uuid4()), workshop, " ".join(name.split()), role, active=True)
    hashed = hash_secret(secret)
    with store.write() as tx:
        if any(people.name_key(other.name) == people.name_key(name) for other in people.people_of(tx, workshop)):
            return "name-taken"
        if people.person_anywhere(tx, made.id):
            return "id-taken"
        people.add_person(tx, made, hashed, _now())
    return made


def give_secret(store: Store, workshop: str, person: str, secret: str, but: str | None = None) -> Person | Refused:
    """Give a person of the workshop a new secret and end that person's sessions: whoever knew the old one is out.

    but: the hash of the token of the session that asks, which goes on. A person who is kept out stays out.
    """
    with store.read() as tx:
        found = people.person(tx, workshop, person)
    if found is None:
        return "unknown-person"
    if weakness(secret, found.name):
        return "weak-secret"
    hashed = hash_secret(secret)
    with store.write() as tx:
        people.set_secret(tx, person, hashed)
        sessions.end_sessions_of_person(tx, person, but)
    return found


def change_secret(store: Store, who: Person, old: str, secret: str, but: str | None) -> Person | Refused:
    """Give oneself a new secret, which takes the old one: an unlocked phone in other hands is not enough."""
    with store.read() as tx:
        kept = next((kept for person, kept in people.people_named(tx, who.name) if person.id == who.id), None)
    if not matches(old, kept):
        return "wrong-secret"
    return give_secret(store, who.workshop, who.id, secret, but)


def give_secret_by_name(store: Store, workshop: str, name: str, secret: str) -> Person:
    """The same for whoever runs the server, who knows names and no ids. Raises ValueError for what is refused."""
    with store.read() as tx:
        shop = next((one for one in workshops.workshops(tx) if one.name == workshop), None)
        known = people.people_of(tx, shop.id) if shop else []
    if shop is None:
        raise ValueError(f"There is no workshop named {workshop} here.")
    found = next((one for one in known if people.name_key(one.name) == people.name_key(name)), None)
    if found is None:
        raise ValueError(f"{workshop} has nobody named {name}.")
    given = give_secret(store, shop.id, found.id, secret)
    if not isinstance(given, Person):
        raise ValueError(weakness(secret, found.name))
    return given


def set_person_active(store: Store, by: Person, person: str, active: bool) -> Person | Refused:
    """Let a person in again, or keep the person out and end all of that person's sessions at once."""
    if person == by.id:
        return "not-yourself"
    with store.write() as tx:
        found = people.person(tx, by.workshop, person)
        if found is None:
            return "unknown-person"
        people.set_active(tx, person, active)
        if not active:
            sessions.end_sessions_of_person(tx, person)
        return Person(found.id, found.workshop, found.name, found.role, active)


def set_device_revoked(store: Store, by: Person, device: str, revoked: bool) -> Device | Refused:
    """Shut a device out at once, or let it in again; whoever uses it then has to sign in anew.

    The sessions of a device that is out stay known, so that the phone hears why it is refused.
    """
    with store.write() as tx:
        found = people.device(tx, device)
        if found is None or found.workshop != by.workshop:
            return "unknown-device"
        people.set_revoked(tx, device, _now() if revoked else None)
        if not revoked:
            sessions.end_sessions_of_device(tx, device)
        return Device(found.id, found.workshop, found.name, revoked)


def _now() -> str:
    return datetime.now(UTC).isoformat()
