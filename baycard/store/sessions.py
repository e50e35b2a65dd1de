"""Sessions, found by the hash of their token."""

from sqlalchemy import bindparam, delete, func, insert, select

from baycard.store.door import Tx
from baycard.store.tables import DeviceRow, PersonRow, SessionRow, WorkshopRow
from baycard.store.values import Device, Person, SignedIn, Workshop
from baycard.store.workshops import forms_of

# Asked with every request, so it is put together once.
_SIGNED_IN = (
    select(
        PersonRow.id,
        PersonRow.name,
        PersonRow.role,
        PersonRow.active,
        DeviceRow.id.label("device"),
        DeviceRow.name.label("device_name"),
        DeviceRow.revoked_at,
        WorkshopRow.id.label("workshop"),
        WorkshopRow.name.label("workshop_name"),
        WorkshopRow.units,
        WorkshopRow.plate_forms,
    )
    .select_from(SessionRow)
    .join(PersonRow, PersonRow.id == SessionRow.person)
    .join(DeviceRow, DeviceRow.id == SessionRow.device)
    .join(WorkshopRow, WorkshopRow.id == PersonRow.workshop)
    .where(SessionRow.token_hash == bindparam("token_hash"), SessionRow.ends_at > bindparam("now"))
)


def add_session(tx: Tx, token_hash: str, who: SignedIn, made_at: int, ends_at: int) -> None:
    """Keep a new session; times are seconds since 1970."""
    tx.execute(
        insert(SessionRow).values(
            token_hash=token_hash, person=who.person.id, device=who.device.id, made_at=made_at, ends_at=ends_at
        )
    )


def signed_in(tx: Tx, token_hash: str, now: int) -> SignedIn | None:
    """Who holds this session, if it has not ended. A revoked device or a person who left is the caller's to refuse."""
    row = tx.execute(_SIGNED_IN, {"token_hash": token_hash, "now": now}).first()
    if row is None:
        return None
    return SignedIn(
        Person(row.id, row.workshop, row.name, row.role, row.active),
        Device(row.device, row.workshop, row.device_name, row.revoked_at is not None),
        Workshop(row.workshop, row.workshop_name, row.units, forms_of(row.plate_forms)),
    )


def last_sign_ins(tx: Tx, workshop: str) -> dict[str, tuple[str, int]]:
    """Of each device that anybody is signed in at: the name of who signed in last, and when (seconds since 1970)."""
    newest = select(SessionRow.device, func.max(SessionRow.made_at).label("made_at")).group_by(SessionRow.device)
    last = newest.subquery()
    rows = tx.execute(
        select(SessionRow.device, PersonRow.name, SessionRow.made_at)
        .join(last, (last.c.device == SessionRow.device) & (last.c.made_at == SessionRow.made_at))
        .join(PersonRow, PersonRow.id == SessionRow.person)
        .where(PersonRow.workshop == workshop)
    )
    return {row.device: (row.name, row.made_at) for row in rows}


def end_session(tx: Tx, token_hash: str) -> None:
    """End one session."""
    tx.execute(delete(SessionRow).where(SessionRow.token_hash == token_hash))


def end_sessions_of_device(tx: Tx, device: str) -> None:
    """End every session on a device."""
    tx.execute(delete(SessionRow).where(SessionRow.device == device))


def end_sessions_of_person(tx: Tx, person: str, but: str | None = None) -> None:
    """End every session of a person; `but`: the hash of the token of one that goes on."""
    tx.execute(delete(SessionRow).where(SessionRow.person == person, SessionRow.token_hash != (but or "")))


def forget_ended(tx: Tx, now: int) -> None:
    """Drop the sessions that have run out."""
    tx.execute(delete(SessionRow).where(SessionRow.ends_at <= now))
