"""Whether one entry, looked at alone, may be kept. Phone and server ask the same questions in the same order."""

import re
from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from typing import Any

from baycard.journal.bodies import body_rule
from baycard.journal.entry import FORMAT, Entry, entry_to_json
from baycard.journal.refusal import Refusal
from baycard.journal.rules import Rule, form, is_object, list_of, shape, text, whole
from baycard.journal.slots import KIND_STANDS_IN, may_stand, parse_slot

MOST_REPLACED = 500
# A phone's calendar is off by centuries at most: 1,000 years.
CLOCK_OFF_MS_MAX = 31_557_600_000_000
UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
UUID_LENGTH = 36
PERSON = form(r"[A-Za-z0-9._:@-]{1,80}", "the id of a person or device")
WRITTEN_FORMAT = whole(FORMAT, 1_000_000)
TIME = re.compile(r"[1-9][0-9]{3}-[0-9]{2}-[0-9]{2}T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\.[0-9]{1,6})?Z")


def judge(entry: Entry | object) -> Refusal | None:
    """Why an entry may not be kept, or None when it may.

    entry: an Entry, or a JSON value as it arrived, about which nothing is known yet. Needs no other entry and no book.
    """
    raw = entry_to_json(entry) if isinstance(entry, Entry) else entry
    if not is_object(raw):
        return Refusal("not-an-entry", "This is not an entry", "Send one JSON object for each entry.")
    return _format(raw) or ENVELOPE(raw, "entry") or _place(raw) or _replaces(raw)


def _format(raw: Mapping[str, Any]) -> Refusal | None:
    written = raw.get("format")
    if type(written) is int and written == FORMAT:  # nearly always
        return None
    if WRITTEN_FORMAT(written, "format"):
        return Refusal("not-an-entry", "The entry does not say its format", f"Send format {FORMAT}.")
    if written != FORMAT:
        do = "Update this side; the entry is kept where it was made and can be sent again."
        return Refusal("newer-format", f"The entry was written by a newer app (format {int(raw['format'])})", do)
    return None


def _time(value: object, path: str) -> Refusal | None:
    if isinstance(value, str) and TIME.fullmatch(value) and _is_day(value[:10]):
        return None
    return Refusal("wrong-form", f"{path} is not a time", "Give a UTC time such as 2026-11-20T09:14:03.120Z.")


@lru_cache(maxsize=64)
def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _id(value: object, path: str) -> Refusal | None:
    if isinstance(value, str) and UUID7.fullmatch(value):
        return None
    return Refusal("bad-id", f"{path} is not a UUID of version 7", "Let the app make the id.")


def _card(value: object, path: str) -> Refusal | None:
    known = isinstance(value, str) and len(value) == UUID_LENGTH and _is_id(value)
    return None if known else _id(value, path)


@lru_cache(maxsize=64)  # a batch is about few cards
def _is_id(card: str) -> bool:
    return UUID7.fullmatch(card) is not None


ENVELOPE: Rule = shape(
    {
        "id": _id,
        "card": _card,
        "slot": text(),
        "kind": text(),
        "body": lambda value, path: None,
        "replaces": list_of(_id, MOST_REPLACED),
        "author": PERSON,
        "device": PERSON,
        "made_at": _time,
        "format": lambda value, path: None,
    },
    {"clock_off_ms": whole(-CLOCK_OFF_MS_MAX, CLOCK_OFF_MS_MAX)},
)


def _place(raw: Mapping[str, Any]) -> Refusal | None:
    kind, slot = raw["kind"], parse_slot(raw["slot"])
    if kind not in KIND_STANDS_IN:
        return Refusal("unknown-kind", "The kind of this entry is not known", "Update the app, then send it again.")
    if slot is None:
        return Refusal(
            "unknown-slot", "The entry is about nothing that is known", "Update the app, then send it again."
        )
    if not may_stand(kind, slot):
        return Refusal("kind-not-in-slot", f"A {kind} cannot stand in this slot", "Record it where it belongs.")
    return body_rule(kind, slot)(raw["body"], "body")


def _replaces(raw: Mapping[str, Any]) -> Refusal | None:
    if raw["id"] in raw["replaces"]:
        return Refusal("replaces-itself", "The entry replaces itself", "Name only earlier entries in replaces.")
    if raw["kind"] == "retraction" and not raw["replaces"]:
        return Refusal("replaces-nothing", "The retraction takes nothing back", "Name the entries it takes back.")
    return None
