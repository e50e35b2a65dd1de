"""Plays many seeds: `python -m tests.sync.soak --seeds 100000`. One that fails is printed with all its options."""

import argparse
import json
import random
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.support.postgres import is_installed
from tests.sync.fleet import Fleet
from tests.sync.kills import kill_over_postgres, kill_over_sqlite
from tests.sync.node import Phones, bundle
from tests.sync.options import Options
from tests.sync.oracle import BrokenPromiseError
from tests.sync.shop import Shop

MEMORY = Path("/dev/shm")


@contextmanager
def table(folder: Path | None = None) -> Iterator[tuple[Phones, Shop]]:
    """A process of phones and a server in a folder of their own, in memory where there is such a place."""
    place = str(MEMORY) if MEMORY.is_dir() else None
    with tempfile.TemporaryDirectory(dir=folder or place) as made:
        shop = Shop(Path(made))
        phones = Phones(bundle(Path(made)))
        try:
            yield phones, shop
        finally:
            phones.close()
            shop.store.close()


def play(phones: Phones, shop: Shop, options: Options) -> str | None:
    """Play one seed; gives the broken promise, if there is one, with all options."""
    try:
        Fleet(phones, shop, options).play()
    except BrokenPromiseError as broken:
        return f"{broken}\n{json.dumps(options.to_json())}"
    return None


def main(arguments: list[str] | None = None) -> int:
    """Play the seeds from `--first` on."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=10_000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--go-on", action="store_true", help="play on after a seed that failed")
    parser.add_argument("--kills", type=int, default=0, help="kill the real server so many times as well")
    given = parser.parse_args(arguments)
    if given.kills:
        _kill(given.kills)
    return _play(given.first, given.seeds, given.go_on)


def _play(first: int, seeds: int, go_on: bool) -> int:
    begun, failed = time.monotonic(), 0
    with table() as (phones, shop):
        for seed in range(first, first + seeds):
            broken = play(phones, shop, Options.of_seed(seed))
            if broken is not None:
                failed += 1
                print(f"seed {seed}: {broken}", flush=True)
                if not go_on:
                    break
            if seed % 500 == 499:
                print(f"{seed + 1} seeds in {time.monotonic() - begun:.0f} s", flush=True)
    print(f"{seeds} seeds, {failed} failed, {time.monotonic() - begun:.0f} s")
    return 1 if failed else 0


def _kill(kills: int) -> None:
    """Raises AssertionError when a kill cost something that was confirmed."""
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        kill_over_sqlite(Path(folder), kills, random.Random(begun))
    print(f"{kills} kills over SQLite in {time.monotonic() - begun:.0f} s", flush=True)
    if is_installed():
        kill_over_postgres(kills, random.Random(begun))
        print(f"{kills} kills over PostgreSQL, {time.monotonic() - begun:.0f} s in all", flush=True)


if __name__ == "__main__":
    sys.exit(main())
