"""How long a hostile formula takes to be refused, against an ordinary one that is read."""

from __future__ import annotations

import time
from contextlib import suppress
from pathlib import Path

from baycard.checklists.formula import FormulaError, parse_formula
from tests.bench.tables import median, ratio, table
from tests.support.hostile_formulas import HOSTILE

INPUTS = ("p1", "p2", "t", "volume")
ORDINARY = "volume / t * (p1 - p2) / 101325 * 273.15 / (20 + 273.15)"
ROUNDS = 7


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    del work
    rounds = ROUNDS * 10 if long else ROUNDS
    floor = median([_ms(ORDINARY) for _ in range(rounds * 10)])
    refused = sorted((median([_ms(text) for _ in range(rounds)]), text) for text in HOSTILE)
    rows = [(text[:30], len(text), f"{ms:.2f}", ratio(ms, floor)) for ms, text in reversed(refused[-5:])]
    table(
        f"The slowest of {len(HOSTILE)} hostile formulas to be refused; an ordinary one is read in {floor:.2f} ms",
        ("begins with", "signs", "ms", "ratio"),
        rows,
    )


def _ms(text: str) -> float:
    begun = time.perf_counter()
    with suppress(FormulaError):
        parse_formula(text, INPUTS)
    return 1000 * (time.perf_counter() - begun)
