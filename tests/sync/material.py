"""What the technicians of the fleet record: few slots on few cards, so that people often meet in one, and sounds."""

import base64
import hashlib
import random
from functools import cache
from typing import Any

from baycard.journal.entry import iso_time
from baycard.journal.uuid7 import uuid7
from tests.support.photos import jpeg, scene

START_MS = 1_795_608_000_000
SLOTS = (
    "bearing-play/rim-movement/rear-left/1",
    "vehicle/plate",
    "tyres/tread/front-left/1",
    "finding/at/tyres/tread/x",
)
POISON = "card/complaint/not-a-uuid"


@cache
def _noise() -> bytes:
    return random.Random(4711).randbytes(400_000)


@cache
def _photo() -> bytes:
    return jpeg(scene(64, 48))


class Material:
    """Makes entries and blobs from one seeded source."""

    def __init__(self, dice: random.Random, now_ms: Any) -> None:
        self._dice, self._now_ms = dice, now_ms
        self.cards = [self._id() for _ in range(2)]

    def entry(self, author: str, device: str) -> dict[str, Any]:
        """A reading, a fact or a finding in one of the few slots, or a retraction of what stands there."""
        slot = self._dice.choice(SLOTS)
        if slot.startswith("vehicle/"):
            return self._made(author, device, "fact", slot, {"value": f"TS {self._dice.randint(1, 9999)}"})
        if slot.startswith("finding/"):
            return self._made(author, device, "finding-declined", slot, {"words": f"no {self._dice.random()}"})
        value = self._dice.randint(1, 900) / 100
        return self._made(author, device, "answer", slot, {"is": "number", "value": value, "unit": "mm"})

    def poison(self, author: str, device: str) -> dict[str, Any]:
        """An entry that the server will never take."""
        return self._made(author, device, "complaint", POISON, {"words": "hums"})

    def recording(self, author: str, device: str) -> tuple[dict[str, Any], dict[str, str], bytes]:
        """A sound, or now and then a photo: entry, blob for the phone, and its bytes."""
        if self._dice.random() < 0.2:
            data, kind, mime = _photo(), "photo", "image/jpeg"
            more: dict[str, Any] = {"width": 64, "height": 48}
        else:
            data, kind, mime, more = self._sound(), "sound", "audio/wav", {"seconds": 1.5}
        name = hashlib.sha256(data).hexdigest()
        body = {"blob": name, "mime": mime, "bytes": len(data), "about": None, "round": 1, "caption": "", **more}
        entry = self._made(author, device, kind, f"{kind}/{self._id()}", body)
        return entry, {"sha256": name, "mime": mime, "bytes": base64.b64encode(data).decode()}, data

    def _sound(self) -> bytes:
        size = self._dice.choice((1_000, 70_000, 150_000, 300_000))
        start = self._dice.randrange(90_000)
        return b"RIFF" + size.to_bytes(4, "little") + b"WAVE" + _noise()[start : start + size]

    def _made(self, author: str, device: str, kind: str, slot: str, body: dict[str, Any]) -> dict[str, Any]:
        return {
            "id": self._id(),
            "card": self._dice.choice(self.cards),
            "slot": slot,
            "kind": kind,
            "body": body,
            "replaces": [],
            "author": author,
            "device": device,
            "made_at": iso_time(self._now_ms()),
            "format": 1,
        }

    def _id(self) -> str:
        return uuid7(self._now_ms(), self._dice.randbytes(10))
