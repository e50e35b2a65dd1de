"""Entries by arrival, as JSON text: a page goes from the table to the wire without being taken apart."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from json.encoder import encode_basestring as quote
from typing import Any

from sqlalchemy import bindparam, select

from baycard.store.door import Tx
from baycard.store.entries import CONTENT
from baycard.store.tables import EntryRow
from baycard.store.workshops import last_arrival

# Asked by every phone all day, so it is put together once.
_NEXT = (
    select(*CONTENT, EntryRow.arrival)
    .where(EntryRow.workshop == bindparam("workshop"), EntryRow.arrival > bindparam("after"))
    .order_by(EntryRow.arrival)
    .limit(bindparam("most"))
)


# A thousand entries of a usual day have a tenth of this. A phone on a weak link has seconds for a page, and no answer
# may fill the server's memory.
PAGE_CHARACTERS_MAX = 4_000_000
ROWS_AT_ONCE = 250


@dataclass(frozen=True, slots=True)
class Page:
    """Entries as one JSON array, the arrival number of the last, and whether there are more."""

    entries: str
    cursor: int
    more: bool


def page(tx: Tx, workshop: str, after: int, limit: int) -> Page:
    """The next entries of a workshop that arrived after a number: `limit` at most, fewer when they are very long.

    The cursor is below `after` only when that was never given out here: the database was put back to an older state.
    """
    rows = tx.execute(_NEXT, {"workshop": workshop, "after": after, "most": limit + 1})
    texts: list[str] = []
    cursor, size = after, 0
    parts: Iterator[Sequence[Sequence[Any]]] = rows.partitions(ROWS_AT_ONCE)
    for part in parts:
        for row in part:
            if len(texts) == limit or size > PAGE_CHARACTERS_MAX:
                return Page(_array(texts), cursor, more=True)
            texts.append(_text(*row))
            size += len(texts[-1])
            cursor = row[-1]
    if cursor == after and after > last_arrival(tx, workshop):
        cursor = last_arrival(tx, workshop)
    return Page(_array(texts), cursor, more=False)


def _array(texts: list[str]) -> str:
    return "[" + ",".join(texts) + "]"


def _text(  # noqa: PLR0913, PLR0917  # the columns of a row, in the order of CONTENT
    id_: str,
    card: str,
    slot: str,
    kind: str,
    body: str,
    replaces: str,
    author: str,
    device: str,
    made_at: str,
    format_: int,
    clock_off_ms: int | None,
    arrival: int,
) -> str:
    clock = "" if clock_off_ms is None else f'"clock_off_ms":{clock_off_ms},'
    return (
        f'{{"id":{quote(id_)},"card":{quote(card)},"slot":{quote(slot)},"kind":{quote(kind)},"body":{body},'
        f'"replaces":{replaces},"author":{quote(author)},"device":{quote(device)},"made_at":{quote(made_at)},'
        f'"format":{format_},{clock}"arrival":{arrival}}}'
    )
