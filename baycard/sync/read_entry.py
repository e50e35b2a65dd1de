"""Turns one JSON value that a phone sent into an entry, or says why it is none."""

from dataclasses import dataclass
from typing import Any, NamedTuple

from baycard.journal.entry import Entry, entry_from_json
from baycard.journal.formats import in_present_format
from baycard.journal.judge import judge
from baycard.journal.slots import FOREMAN_KINDS, SERVER_KINDS
from baycard.store.entries import body_text
from baycard.store.values import Role

ENTRY_BYTES_MAX = 256 * 1024


class Read(NamedTuple):
    """An entry that is sound by itself, with its body as JSON text."""

    entry: Entry
    body: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Why an entry is not kept; title and what to do are empty when the code alone tells."""

    id: str
    code: str
    title: str = ""
    do: str = ""


def read_entry(raw: object, role: Role) -> Read | Refused:
    """Read and judge one entry, by itself and by what the role of the sender may do. It is kept as it was sent."""
    if not isinstance(raw, dict):
        return Refused("", "not-an-entry")
    said = in_present_format(raw)
    if isinstance(said, str):
        return Refused(_id_of(raw), said)
    refusal = judge(said)
    if refusal is not None:
        return Refused(_id_of(raw), refusal.code, refusal.title, refusal.do)
    if said["kind"] in SERVER_KINDS:
        return Refused(raw["id"], "desk-only")
    if said["kind"] in FOREMAN_KINDS and role == "technician":
        return Refused(raw["id"], "role")
    return _with_body(entry_from_json(raw))


def _id_of(raw: dict[str, Any]) -> str:
    return str(raw.get("id", ""))[:80]


def _with_body(entry: Entry) -> Read | Refused:
    try:
        body = body_text(entry.body)
    except ValueError:  # endless numbers and halves of characters are not JSON
        return Refused(entry.id, "not-an-entry")
    if len(body) > ENTRY_BYTES_MAX:
        return Refused(entry.id, "entry-too-large")
    return Read(entry, body)
