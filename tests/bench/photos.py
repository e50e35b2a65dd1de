"""Photos to the server, against a plain PUT with hash and fsync; and what a cut costs."""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from functools import partial
from pathlib import Path

from tests.bench.cost import Cost, Side
from tests.bench.process import baycard, floor
from tests.bench.tables import median, percentile, ratio, table
from tests.bench.wire import FloorClient, PhoneClient, Wire
from tests.support.photos import jpeg, scene

COUNT = 100
CUTS = 20
BACK_AFTER_S = 0.5  # a phone comes back later still; asking at once would end a request whose bytes are unread
SIZE = (1_600, 1_200)
BYTES = 300_000
EBML = b"\x1a\x45\xdf\xa3\x42\x82\x84webm"


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    with ExitStack() as stack:
        theirs, ours = stack.enter_context(floor(work / "floor")), stack.enter_context(baycard(work / "ours"))
        phone = PhoneClient(ours.port)
        sides = [
            Side("floor", theirs, FloorClient(theirs.port), phone.author, phone.device),
            Side("baycard", ours, phone, phone.author, phone.device),
        ]
        count = COUNT * 5 if long else COUNT
        upload(sides, "photos", a_photo, count)
        upload(sides, "sounds", a_sound, count)
        resume(phone, sides[1].served.port)


def a_photo(number: int) -> bytes:
    """A JPEG as the phone makes them, of about 300 kB, each its own."""
    image = scene(*SIZE).copy()
    left, top = number * 37 % (SIZE[0] - 64), number * 91 % (SIZE[1] - 64)
    image.paste((20, 200, 200), (left, top, left + 64, top + 64))
    return jpeg(image, quality=QUALITY)


def a_sound(number: int) -> bytes:
    """Bytes that the server takes for a sound: nothing of them is looked into."""
    return EBML + number.to_bytes(4, "big") + os.urandom(BYTES)


def _quality() -> int:
    sizes = {quality: len(jpeg(scene(*SIZE), quality=quality)) for quality in range(30, 96, 5)}
    return min(sizes, key=lambda quality: abs(sizes[quality] - BYTES))


QUALITY = _quality()


def upload(sides: Sequence[Side], what: str, make: Callable[[int], bytes], count: int) -> None:
    """One PUT each on a kept-alive connection, both servers in turn."""
    costs = {side.name: Cost() for side in sides}
    size = 0
    for number in range(count):
        data = make(number)
        size += len(data)
        name = hashlib.sha256(data).hexdigest()
        for side in sides:
            costs[side.name].add(side, partial(side.client.put, name, data))
    rows = [
        (
            side.name,
            f"{1000 * sum(cost.wall_s):.0f}",
            f"{1000 * median(cost.wall_s):.1f}",
            f"{1000 * percentile(cost.wall_s, 0.95):.1f}",
            f"{1000 * cost.cpu_s:.0f}",
            f"{cost.traffic / size:.4f}",
            f"{side.served.memory_mb():.0f} (peak {side.served.peak_mb():.0f})",
        )
        for side, cost in ((side, costs[side.name]) for side in sides)
    ]
    wall = [sum(costs[side.name].wall_s) for side in sides]
    table(
        f"{count} {what} of {size / count / 1000:.0f} kB; wall {ratio(wall[1], wall[0])}",
        ("server", "all ms", "p50 ms", "p95 ms", "server CPU ms", "bytes sent a byte", "memory MB"),
        rows,
    )


def resume(phone: PhoneClient, port: int) -> None:
    """A connection that is cut at half of the photo; the rest follows on another one."""
    sent = size = requests = 0
    for number in range(10_000, 10_000 + CUTS):
        data = a_photo(number)
        name = hashlib.sha256(data).hexdigest()
        size += len(data)
        cut, rest = Wire(port), Wire(port)
        cut.send_part("PUT", f"/api/blobs/{name}", data[: len(data) // 2], len(data), phone.headers)
        cut.close()
        time.sleep(BACK_AFTER_S)
        held = rest.head(f"/api/blobs/{name}", phone.headers)
        offset = {"Upload-Offset": str(held), "Upload-Length": str(len(data))}
        rest.call("PUT", f"/api/blobs/{name}", data[held:], phone.headers | offset)
        sent += cut.sent + rest.sent
        requests += 1 + rest.requests
        rest.close()
    table(
        f"{CUTS} photos, each cut at half (a plain PUT sends 1.50 bytes a byte)",
        ("bytes sent a byte", "requests a photo"),
        [(f"{sent / size:.4f}", requests / CUTS)],
    )
