"""Entries as a walk makes them, in any number, for the measurements."""

from __future__ import annotations

import random
from collections.abc import Iterator

CHECKS = ("rock-12-6", "rock-3-9", "rim-movement", "hub-movement", "hub-temperature", "roughness")
PLACES = ("front-left", "front-right", "rear-right", "rear-left")
START_MS = 1_793_000_000_000
PER_CARD = 400


def uuid7(ms: int, chance: random.Random) -> str:
    """A UUIDv7 for one millisecond; the rest is drawn from `chance`."""
    value = (ms << 80) | (0x7 << 76) | (chance.getrandbits(12) << 64) | (0b10 << 62) | chance.getrandbits(62)
    text = f"{value:032x}"
    return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"


def readings(count: int, author: str, device: str, seed: int = 1) -> Iterator[dict[str, object]]:
    """`count` readings over as many cards as it takes, one every few seconds."""
    chance = random.Random(seed)
    ms = START_MS + seed * 1_000_000_007
    card = ""
    for n in range(count):
        ms += chance.randint(2_000, 20_000)
        if n % PER_CARD == 0:
            card = uuid7(ms, chance)
        check, place = CHECKS[n % len(CHECKS)], PLACES[n // len(CHECKS) % len(PLACES)]
        turn = n % PER_CARD // (len(CHECKS) * len(PLACES)) + 1
        yield {
            "id": uuid7(ms, chance),
            "card": card,
            "slot": f"bearing-play/{check}/{place}/{turn}",
            "kind": "answer",
            "body": body(n, chance),
            "replaces": [],
            "author": author,
            "device": device,
            "made_at": f"2026-11-20T{clock(ms)}Z",
            "format": 1,
        }


def clock(ms: int) -> str:
    """hh:mm:ss.mmm of a count of milliseconds."""
    return f"{ms // 3_600_000 % 24:02d}:{ms // 60_000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"


def body(n: int, chance: random.Random) -> dict[str, object]:
    """One choice for every two numbers."""
    if n % 3 == 0:
        return {"is": "choice", "choice": chance.choice(["none", "slight", "clear"])}
    value = round(chance.uniform(0.01, 0.4), 2)
    return {"is": "number", "value": value, "unit": "mm", "typed": str(value), "instrument": "dial-indicator"}
