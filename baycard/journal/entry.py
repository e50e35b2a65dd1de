"""One entry of a card's journal, the thing that a tap adds and nothing ever changes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from baycard.journal.uuid7 import RANDOM_BYTES, uuid7

FORMAT = 1
Body = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry as docs/formats.md section 1 lays it out; the body's shape goes by kind and has been judged."""

    id: str
    card: str
    slot: str
    kind: str
    body: Body = field(hash=False)
    replaces: tuple[str, ...]
    author: str
    device: str
    made_at: str
    format: int = FORMAT
    clock_off_ms: int | None = None
    """How far the clock behind `made_at` was ahead of the server's; None where they agreed or nobody knew."""


@dataclass(frozen=True, slots=True)
class EntryContext:
    """Who writes, on which card, and where the time (ms since 1970 UTC) and the random bytes come from."""

    card: str
    author: str
    device: str
    now_ms: Callable[[], int]
    random_bytes: Callable[[int], bytes]


def new_entry(kind: str, slot: str, body: Body, replaces: Sequence[str], context: EntryContext) -> Entry:
    """A new entry with its own id; `replaces` are the ids of the entries its author saw standing in the slot."""
    now_ms = context.now_ms()
    return Entry(
        id=uuid7(now_ms, context.random_bytes(RANDOM_BYTES)),
        card=context.card,
        slot=slot,
        kind=kind,
        body=body,
        replaces=tuple(replaces),
        author=context.author,
        device=context.device,
        made_at=iso_time(now_ms),
    )


def iso_time(now_ms: int) -> str:
    """The UTC time as entries write it, to the millisecond: 2026-11-20T09:14:03.120Z."""
    moment = datetime.fromtimestamp(now_ms // 1000, UTC)
    return f"{moment:%Y-%m-%dT%H:%M:%S}.{now_ms % 1000:03d}Z"


def entry_from_json(raw: Mapping[str, Any]) -> Entry:
    """The entry a judged JSON object holds. Raises KeyError when a part is missing: judge it first."""
    return Entry(
        id=raw["id"],
        card=raw["card"],
        slot=raw["slot"],
        kind=raw["kind"],
        body=raw["body"],
        replaces=tuple(raw["replaces"]),
        author=raw["author"],
        device=raw["device"],
        made_at=raw["made_at"],
        format=raw["format"],
        clock_off_ms=int(raw["clock_off_ms"]) if "clock_off_ms" in raw else None,
    )


def entry_to_json(entry: Entry) -> dict[str, Any]:
    """The entry as the JSON object that travels and is frozen."""
    clock = {} if entry.clock_off_ms is None else {"clock_off_ms": entry.clock_off_ms}
    return {
        "id": entry.id,
        "card": entry.card,
        "slot": entry.slot,
        "kind": entry.kind,
        "body": dict(entry.body),
        "replaces": list(entry.replaces),
        "author": entry.author,
        "device": entry.device,
        "made_at": entry.made_at,
        "format": entry.format,
        **clock,
    }
