"""Entries to and from the server, against the floor: time, CPU, bytes, requests, and what is stored."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from functools import partial
from pathlib import Path

from tests.bench.cost import Client, Cost, Side
from tests.bench.entries import readings
from tests.bench.process import baycard, floor
from tests.bench.tables import median, percentile, ratio, table
from tests.bench.wire import FloorClient, PhoneClient

SIZES = (120, 1_200, 12_000)
LONG_SIZE = 100_000
BATCHES = (50, 500, 1_000)
MEMORY_ENTRIES = 6_000
SMALL_ROUNDS = 60
PHONES = 50
PUSHES_OF_A_PHONE = 6
ENTRIES_OF_A_PUSH = 24
HEAD = ("task", "floor ms", "ours ms", "wall", "floor CPU ms", "ours CPU ms", "CPU")


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    with ExitStack() as stack:
        theirs, ours = stack.enter_context(floor(work / "floor")), stack.enter_context(baycard(work / "ours"))
        phone = PhoneClient(ours.port)
        sides = [
            Side("floor", theirs, FloorClient(theirs.port), phone.author, phone.device),
            Side("baycard", ours, phone, phone.author, phone.device),
        ]
        seeds = iter(range(1, 1_000_000))
        _warm(sides, next(seeds))
        transfers(sides, seeds, (*SIZES, LONG_SIZE) if long else SIZES)
        memory(sides, seeds)
        single(sides, seeds)
        many_phones(sides, seeds)
    stored(work, ours_entries=sides[1].cursor, floor_entries=sides[0].cursor)


def _warm(sides: Sequence[Side], seed: int) -> None:
    for side in sides:
        entries = list(readings(500, side.author, side.device, seed))
        side.client.push(entries)
        side.cursor = side.client.pull(0, len(entries))


def transfers(sides: Sequence[Side], seeds: Iterator[int], sizes: Sequence[int]) -> None:
    """Push a number of entries in batches of 500, then pull them in pages of 1,000; both servers in turn."""
    rows: list[Sequence[object]] = []
    for size in sizes:
        rounds = max(2, min(15, 36_000 // size))
        pushed = {side.name: Cost() for side in sides}
        pulled = {side.name: Cost() for side in sides}
        for _ in range(rounds):
            seed = next(seeds)
            for side in sides:
                entries = list(readings(size, side.author, side.device, seed))
                pushed[side.name].add(side, partial(side.client.push, entries))
                pulled[side.name].add(side, partial(_pull, side, size))
        for title, costs in (("push", pushed), ("pull", pulled)):
            rows.append(_row(f"{title} {size:,}", costs["floor"], costs["baycard"], size))
    table(
        "Entries in batches (medians; server CPU: mean; bytes both ways with headers, in brackets those sent)",
        (*HEAD, "floor B/entry", "ours B/entry", "bytes", "requests"),
        rows,
    )


def _pull(side: Side, count: int) -> None:
    side.cursor = side.client.pull(side.cursor, count)


def _row(title: str, theirs: Cost, ours: Cost, size: int) -> list[object]:
    wall = [1000 * median(cost.wall_s) for cost in (theirs, ours)]
    cpu = [1000 * cost.cpu_s / cost.times for cost in (theirs, ours)]
    wire = [cost.traffic / cost.times / size for cost in (theirs, ours)]
    sent = [cost.sent / cost.times / size for cost in (theirs, ours)]
    return [
        title,
        *(f"{ms:.1f}" for ms in wall),
        ratio(wall[1], wall[0]),
        *(f"{ms:.1f}" for ms in cpu),
        ratio(cpu[1], cpu[0]),
        *(f"{each:.1f} ({up:.1f})" for each, up in zip(wire, sent, strict=True)),
        ratio(wire[1], wire[0]),
        f"{theirs.requests // theirs.times} / {ours.requests // ours.times}",
    ]


def memory(sides: Sequence[Side], seeds: Iterator[int]) -> None:
    """What is resident after pushing as many entries in batches of each size, the smallest first."""
    rows = []
    for batch in BATCHES:
        row: list[object] = [batch]
        seed = next(seeds)
        for side in sides:
            side.client.push(list(readings(MEMORY_ENTRIES, side.author, side.device, seed)), batch)
            side.cursor = side.client.pull(side.cursor, MEMORY_ENTRIES)
            row += [f"{side.served.memory_mb():.0f}", f"{side.served.peak_mb():.0f}"]
        rows.append(row)
    table(
        f"Memory in MB after {MEMORY_ENTRIES:,} entries more in batches of each size",
        ("batch", "floor", "its peak", "ours", "its peak"),
        rows,
    )


def single(sides: Sequence[Side], seeds: Iterator[int]) -> None:
    """One new entry pushed, then pulled, and a round with nothing to say, after thousands have been kept."""
    costs = {title: {side.name: Cost() for side in sides} for title in ("one entry pushed", "idle round")}
    for _ in range(SMALL_ROUNDS):
        seed = next(seeds)
        for side in sides:
            entries = list(readings(1, side.author, side.device, seed))
            costs["one entry pushed"][side.name].add(side, partial(side.client.push, entries))
            side.cursor = side.client.pull(side.cursor, 1)
            costs["idle round"][side.name].add(side, partial(side.client.idle, side.cursor))
    rows = [_row(title, cost["floor"], cost["baycard"], 1) for title, cost in costs.items()]
    table(
        f"Single exchanges with {sides[1].cursor:,} entries kept (medians of {SMALL_ROUNDS})",
        (*HEAD, "floor B", "ours B", "bytes", "requests"),
        rows,
    )


def many_phones(sides: Sequence[Side], seeds: Iterator[int]) -> None:
    """Fifty phones at once, each pushing a few small batches and pulling the news behind each."""
    rows = []
    for side in sides:
        before = side.served.memory_mb()
        waits: list[float] = []
        failures: list[str] = []
        clients = [FloorClient(side.served.port) if side.name == "floor" else PhoneClient(side.served.port)
                   for _ in range(PHONES)]  # fmt: skip
        threads = [
            threading.Thread(target=_one_phone, args=(side, client, next(seeds), waits, failures)) for client in clients
        ]
        begun = time.perf_counter()
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        took = time.perf_counter() - begun
        side.cursor += PHONES * PUSHES_OF_A_PHONE * ENTRIES_OF_A_PUSH
        for client in clients:
            client.wire.close()
        ms = [1000 * wait for wait in waits]
        rows.append(
            (
                side.name,
                len(ms),
                f"{took:.2f}",
                f"{median(ms):.0f}",
                f"{percentile(ms, 0.95):.0f}",
                len(failures),
                f"{before:.0f} -> {side.served.memory_mb():.0f} (peak {side.served.peak_mb():.0f})",
            )
        )
    table(
        f"{PHONES} phones at once, {PUSHES_OF_A_PHONE} pushes of {ENTRIES_OF_A_PUSH} entries each",
        ("server", "pushes", "all s", "p50 ms", "p95 ms", "errors", "memory MB"),
        rows,
    )


def _one_phone(side: Side, client: Client, seed: int, waits: list[float], failures: list[str]) -> None:
    author, device = (client.author, client.device) if isinstance(client, PhoneClient) else (side.author, side.device)
    entries = list(readings(PUSHES_OF_A_PHONE * ENTRIES_OF_A_PUSH, author, device, seed))
    for start in range(0, len(entries), ENTRIES_OF_A_PUSH):
        begun = time.perf_counter()
        try:
            client.push(entries[start : start + ENTRIES_OF_A_PUSH])
        except (AssertionError, OSError) as error:
            failures.append(repr(error))
        waits.append(time.perf_counter() - begun)


def stored(work: Path, ours_entries: int, floor_entries: int) -> None:
    """Bytes on the disk for each entry, after the servers have ended."""
    rows = []
    for name, file, count in (
        ("floor", work / "floor" / "floor.sqlite", floor_entries),
        ("baycard", work / "ours" / "baycard.sqlite", ours_entries),
    ):
        size = file.stat().st_size
        rows.append((name, f"{count:,}", f"{size / 1e6:.1f}", f"{size / count:.0f}"))
    table("Stored", ("server", "entries", "database MB", "bytes an entry"), rows)
