"""Measures, prints tables, judges nothing: `python -m tests.bench [NAME ...] [--long]`; `--help` tells the names."""

from __future__ import annotations

import argparse
import importlib
import signal
import sys
import tempfile
import time
from pathlib import Path

BENCHES = ("sync", "photos", "live", "pdf", "formulas", "phone", "taps")


def main() -> None:
    """Run the named benches, or all."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("benches", nargs="*", metavar="bench", help=f"any of {', '.join(BENCHES)}; none means all")
    parser.add_argument("--long", action="store_true", help="larger numbers, which take many minutes")
    wanted = parser.parse_args()
    unknown = set(wanted.benches) - set(BENCHES)
    if unknown:
        parser.error(f"there is no bench named {', '.join(sorted(unknown))}; there are {', '.join(BENCHES)}")
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # the servers end with it
    for name in wanted.benches or BENCHES:
        begun = time.monotonic()
        print(f"\n## {name}", flush=True)
        with tempfile.TemporaryDirectory(prefix=f"baycard-bench-{name}-") as work:
            importlib.import_module(f"tests.bench.{name}").run(Path(work), long=wanted.long)
        print(f"({name} took {time.monotonic() - begun:.0f} s)", flush=True)


if __name__ == "__main__":
    main()
