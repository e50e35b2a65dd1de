"""People and devices."""

from collections.abc import Collection
from typing import Any

from sqlalchemy import Row, bindparam, insert, select, update

from baycard.store.door import Tx
from baycard.store.tables import DeviceRow, PersonRow
from baycard.store.values import Device, Person

PERSON = (PersonRow.id, PersonRow.workshop, PersonRow.name, PersonRow.role, PersonRow.active)
DEVICE = (DeviceRow.id, DeviceRow.workshop, DeviceRow.name, DeviceRow.revoked_at)
# Put together once: every push asks these.
_PEOPLE_AMONG = select(PersonRow.id).where(
    PersonRow.workshop == bindparam("workshop"), PersonRow.id.in_(bindparam("ids", expanding=True))
)
_DEVICES_AMONG = select(DeviceRow.id, DeviceRow.revoked_at).where(
    DeviceRow.workshop == bindparam("workshop"), DeviceRow.id.in_(bindparam("ids", expanding=True))
)


def name_key(name: str) -> str:
    """A name as it is compared: spaces joined, case folded."""
    return " ".join(name.split()).casefold()


def add_person(tx: Tx, person: Person, secret_hash: str, made_at: str) -> None:
    """Keep a new person; raises IntegrityError when the workshop has somebody of that name."""
    tx.execute(
        insert(PersonRow).values(
            id=person.id,
            workshop=person.workshop,
            name=person.name,
            name_key=name_key(person.name),
            role=person.role,
            secret_hash=secret_hash,
            active=person.active,
            made_at=made_at,
        )
    )


def people_named(tx: Tx, name: str) -> list[tuple[Person, str]]:
    """Everybody of that name on this server, with the hash of the secret."""
    rows = tx.execute(select(*PERSON, PersonRow.secret_hash).where(PersonRow.name_key == name_key(name)))
    return [(_person(row), row.secret_hash) for row in rows]


def people_of(tx: Tx, workshop: str) -> list[Person]:
    """The people of a workshop by name, those who left included."""
    rows = tx.execute(select(*PERSON).where(PersonRow.workshop == workshop).order_by(PersonRow.name_key))
    return [_person(row) for row in rows]


def people_among(tx: Tx, workshop: str, ids: Collection[str]) -> frozenset[str]:
    """Those of the ids that are people of this workshop, those who left included."""
    rows = tx.execute(_PEOPLE_AMONG, {"workshop": workshop, "ids": list(ids)})
    return frozenset(row.id for row in rows)


def devices_among(tx: Tx, workshop: str, ids: Collection[str]) -> dict[str, bool]:
    """Those of the ids that are devices of this workshop, each with whether it is shut out."""
    rows = tx.execute(_DEVICES_AMONG, {"workshop": workshop, "ids": list(ids)})
    return {row.id: row.revoked_at is not None for row in rows}


def person(tx: Tx, workshop: str, id_: str) -> Person | None:
    """A person of this workshop."""
    row = tx.execute(select(*PERSON).where(PersonRow.workshop == workshop, PersonRow.id == id_)).first()
    return _person(row) if row else None


def person_anywhere(tx: Tx, id_: str) -> bool:
    """Whether any workshop has somebody of that id."""
    return tx.execute(select(PersonRow.id).where(PersonRow.id == id_)).first() is not None


def set_active(tx: Tx, id_: str, active: bool) -> None:
    """Let a person in or keep the person out."""
    tx.execute(update(PersonRow).where(PersonRow.id == id_).values(active=active))


def set_secret(tx: Tx, id_: str, secret_hash: str) -> None:
    """Keep the hash of a new secret in place of the old one."""
    tx.execute(update(PersonRow).where(PersonRow.id == id_).values(secret_hash=secret_hash))


def add_device(tx: Tx, device: Device, made_at: str) -> None:
    """Keep a new device."""
    tx.execute(
        insert(DeviceRow).values(
            id=device.id, workshop=device.workshop, name=device.name, made_at=made_at, revoked_at=None
        )
    )


def device(tx: Tx, id_: str) -> Device | None:
    """A device by its id, of any workshop: the caller compares the workshop."""
    row = tx.execute(select(*DEVICE).where(DeviceRow.id == id_)).first()
    return _device(row) if row else None


def devices_of(tx: Tx, workshop: str) -> list[Device]:
    """The devices of a workshop, in the order they came."""
    rows = tx.execute(select(*DEVICE).where(DeviceRow.workshop == workshop).order_by(DeviceRow.made_at, DeviceRow.id))
    return [_device(row) for row in rows]


def set_revoked(tx: Tx, id_: str, at: str | None) -> None:
    """Shut a device out, or let it in again with None."""
    tx.execute(update(DeviceRow).where(DeviceRow.id == id_).values(revoked_at=at))


def _person(row: Row[*tuple[Any, ...]]) -> Person:
    return Person(row.id, row.workshop, row.name, row.role, row.active)


def _device(row: Row[*tuple[Any, ...]]) -> Device:
    return Device(row.id, row.workshop, row.name, row.revoked_at is not None)
