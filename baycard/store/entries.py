"""Cards and entries: kept in batches, handed out by card or by arrival."""

import json
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from sqlalchemy import bindparam, insert, select

from baycard.journal.entry import Entry
from baycard.store.door import Tx
from baycard.store.tables import CardRow, EntryRow

CONTENT = (
    EntryRow.id,
    EntryRow.card,
    EntryRow.slot,
    EntryRow.kind,
    EntryRow.body,
    EntryRow.replaces,
    EntryRow.author,
    EntryRow.device,
    EntryRow.made_at,
    EntryRow.format,
    EntryRow.clock_off_ms,
)
# Put together once: every push asks these.
_OWNERS = select(CardRow.id, CardRow.workshop).where(CardRow.id.in_(bindparam("cards", expanding=True)))
ROW = ("workshop", "arrival", *(column.key for column in CONTENT))
# Made once: json.dumps would make a new one for each entry of a batch.
_WRITER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _written() -> Callable[[object], str]:
    """What `_WRITER.encode` does, without the encoder in C that it makes anew for each value: half the time."""
    make = getattr(json.encoder, "c_make_encoder", None)
    if make is None:
        return _WRITER.encode
    quote = json.encoder.encode_basestring
    chunks = make(None, _WRITER.default, quote, None, ":", ",", False, False, False)  # C takes no names
    return lambda value: "".join(chunks(value, 0))


_write = _written()


@dataclass(frozen=True, slots=True)
class KeptEntry:
    """An entry with its arrival number in its workshop."""

    entry: Entry
    arrival: int
    workshop: str


class Arrived(NamedTuple):
    """An entry to keep, with its body already written as JSON text."""

    entry: Entry
    body: str
    arrival: int


def body_text(body: object) -> str:
    """A body as it is kept. Raises ValueError for what is not JSON: endless numbers, halves of characters."""
    text = _write(body)
    text.encode()
    return text


def kept_entries(tx: Tx, ids: Collection[str]) -> dict[str, KeptEntry]:
    """Those of the ids that are kept, in any workshop."""
    if not ids:
        return {}
    columns = ",".join((*(column.key for column in CONTENT), "arrival", "workshop"))
    asked = f"SELECT {columns} FROM {EntryRow.__tablename__} WHERE id IN ({_marks(tx, len(ids))})"  # noqa: S608  # our own names
    rows = tx.exec_driver_sql(asked, tuple(ids))
    return {row.id: _kept(row) for row in rows}


def owners_of_cards(tx: Tx, cards: Collection[str]) -> dict[str, str]:
    """The workshop of each known card."""
    rows = tx.execute(_OWNERS, {"cards": list(cards)})
    return {row.id: row.workshop for row in rows}


def add_cards(tx: Tx, workshop: str, cards: Iterable[str]) -> None:
    """Say that these cards belong to a workshop."""
    rows = [{"id": card, "workshop": workshop} for card in cards]
    if rows:
        tx.execute(insert(CardRow), rows)


def add_entries(tx: Tx, workshop: str, arrived: Sequence[Arrived]) -> None:
    """Keep new entries, all in one statement, which goes to the driver as it is."""
    rows = [_row(workshop, line) for line in arrived]
    if rows:
        places = _marks(tx, len(ROW))
        into = f"INSERT INTO {EntryRow.__tablename__} ({','.join(ROW)}) VALUES ({places})"  # noqa: S608  # our own names
        tx.exec_driver_sql(into, rows)


def _marks(tx: Tx, count: int) -> str:
    """Places for values in a statement, as the driver writes them."""
    return ",".join(("?" if tx.dialect.paramstyle == "qmark" else "%s",) * count)


def _row(workshop: str, line: Arrived) -> tuple[object, ...]:
    """The values of ROW."""
    entry = line.entry
    return (
        workshop,
        line.arrival,
        entry.id,
        entry.card,
        entry.slot,
        entry.kind,
        line.body,
        _write(entry.replaces) if entry.replaces else "[]",
        entry.author,
        entry.device,
        entry.made_at,
        int(entry.format),
        entry.clock_off_ms,
    )


def entries_of_card(tx: Tx, workshop: str, card: str, up_to: int | None = None) -> list[KeptEntry]:
    """The entries of a card of this workshop in order of arrival, all or those up to an arrival number."""
    wanted = select(*CONTENT, EntryRow.arrival, EntryRow.workshop).where(
        EntryRow.workshop == workshop, EntryRow.card == card
    )
    if up_to is not None:
        wanted = wanted.where(EntryRow.arrival <= up_to)
    return [_kept(row) for row in tx.execute(wanted.order_by(EntryRow.arrival))]


def _kept(row: Any) -> KeptEntry:  # noqa: ANN401  # a row of CONTENT, arrival, workshop
    entry = Entry(
        id=row.id,
        card=row.card,
        slot=row.slot,
        kind=row.kind,
        body=json.loads(row.body),
        replaces=tuple(json.loads(row.replaces)),
        author=row.author,
        device=row.device,
        made_at=row.made_at,
        format=row.format,
        clock_off_ms=row.clock_off_ms,
    )
    return KeptEntry(entry, row.arrival, row.workshop)
