"""Builders of entries as a phone would send them, each sound unless a test spoils it."""

import json
import os
from dataclasses import dataclass, field
from itertools import count
from typing import Any

from baycard.journal.entry import iso_time
from baycard.journal.uuid7 import uuid7

Json = dict[str, Any]
NOON_MS = 1_795_608_000_000
_ticks = count()


def new_id() -> str:
    """A fresh UUIDv7; later ones sort later."""
    return uuid7(NOON_MS + next(_ticks), os.urandom(10))


@dataclass(frozen=True)
class CardBuilder:
    """Makes the entries of one card, written by one person on one device."""

    author: str
    device: str
    card: str = field(default_factory=new_id)

    def entry(self, kind: str, slot: str, body: Json, replaces: tuple[str, ...] = (), **changes: Any) -> Json:
        """Any entry; `changes` replace members of the envelope."""
        made: Json = {
            "id": new_id(),
            "card": self.card,
            "slot": slot,
            "kind": kind,
            "body": body,
            "replaces": list(replaces),
            "author": self.author,
            "device": self.device,
            "made_at": iso_time(NOON_MS),
            "format": 1,
        }
        return made | changes

    def fact(self, value: str | float = "TS 4711", slot: str = "vehicle/plate", **changes: Any) -> Json:
        """A fact about the vehicle, the customer or the card."""
        return self.entry("fact", slot, {"value": value}, **changes)

    def reading(self, value: float = 0.12, place: str = "rear-left", **changes: Any) -> Json:
        """A measured play, in mm."""
        body = {"is": "number", "value": value, "unit": "mm", "typed": str(value)}
        return self.entry("answer", f"bearing-play/rim-movement/{place}/1", body, **changes)

    def readings(self, amount: int) -> list[Json]:
        """Many readings, each in a slot of its own."""
        return [self.reading(0.1 + (n % 50) / 100, f"place-{n}") for n in range(amount)]

    def photo(self, sha256: str, size: int = 1000, **changes: Any) -> Json:
        """A photo entry that mentions a blob."""
        body = {
            "blob": sha256,
            "mime": "image/jpeg",
            "bytes": size,
            "width": 640,
            "height": 480,
            "about": None,
            "round": 1,
            "caption": "rear hub",
        }
        return self.entry("photo", f"photo/{new_id()}", body, **changes)

    def sent_back(self, **changes: Any) -> Json:
        """The foreman wants more."""
        return self.entry("sent-back", "stage", {"words": "Measure again.", "slots": []}, **changes)

    def handed_in(self, **changes: Any) -> Json:
        """Ready for the desk."""
        return self.entry("handed-in", "stage", {"words": ""}, **changes)


def push_body(entries: list[Json]) -> bytes:
    """The body of a push."""
    return json.dumps({"entries": entries}, separators=(",", ":")).encode()
