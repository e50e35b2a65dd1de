"""Workshops and their arrival counter."""

from sqlalchemy import bindparam, insert, select, update

from baycard.store.door import Tx
from baycard.store.tables import WorkshopRow
from baycard.store.values import Workshop

# Put together once: every push holds and moves the counter.
_HELD = select(WorkshopRow.arrival).where(WorkshopRow.id == bindparam("workshop")).with_for_update()
_MOVED = update(WorkshopRow).where(WorkshopRow.id == bindparam("workshop")).values(arrival=bindparam("reached"))


def add_workshop(tx: Tx, workshop: Workshop) -> None:
    """Keep a new workshop."""
    tx.execute(insert(WorkshopRow).values(id=workshop.id, name=workshop.name, units=workshop.units, arrival=0))


def workshops(tx: Tx) -> list[Workshop]:
    """All workshops, by name."""
    columns = (WorkshopRow.id, WorkshopRow.name, WorkshopRow.units, WorkshopRow.plate_forms)
    rows = tx.execute(select(*columns).order_by(WorkshopRow.name))
    return [Workshop(row.id, row.name, row.units, forms_of(row.plate_forms)) for row in rows]


def set_plate_forms(tx: Tx, workshop: str, forms: tuple[str, ...]) -> None:
    """How plates look there; none means that nothing is known of them."""
    tx.execute(update(WorkshopRow).where(WorkshopRow.id == workshop).values(plate_forms="\n".join(forms)))


def forms_of(kept: str) -> tuple[str, ...]:
    """The forms as the column keeps them, a line each."""
    return tuple(kept.splitlines())


def last_arrival(tx: Tx, workshop: str) -> int:
    """The last arrival number given out."""
    return tx.execute(select(WorkshopRow.arrival).where(WorkshopRow.id == workshop)).scalar_one()


def hold_counter(tx: Tx, workshop: str) -> int:
    """The last arrival number, with the counter locked until this transaction ends.

    Numbers then follow the order of commits, so that nobody who pulls steps over an entry that commits late.
    """
    return tx.execute(_HELD, {"workshop": workshop}).scalar_one()


def move_counter(tx: Tx, workshop: str, arrival: int) -> None:
    """Set the last arrival number; the counter must be held."""
    tx.execute(_MOVED, {"workshop": workshop, "reached": arrival})
