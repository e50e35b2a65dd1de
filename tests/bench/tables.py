"""Medians, percentiles and the tables they are printed in."""

from __future__ import annotations

import statistics
from collections.abc import Sequence


def median(values: Sequence[float]) -> float:
    """The median."""
    return statistics.median(values)


def percentile(values: Sequence[float], share: float) -> float:
    """The smallest value that at least `share` (0 to 1) of the values do not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, max(0, -int(-share * len(ordered) // 1) - 1))]


def ratio(ours: float, floor: float) -> str:
    """How many times the floor."""
    return f"{ours / floor:.2f}x" if floor else "-"


def table(title: str, head: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
    """Print a Markdown table."""
    lines = [[str(cell) for cell in row] for row in (head, *rows)]
    widths = [max(len(line[column]) for line in lines) for column in range(len(head))]
    print(f"\n### {title}\n")
    for number, line in enumerate(lines):
        print("| " + " | ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)) + " |")
        if number == 0:
            print("|" + "|".join("-" * (width + 2) for width in widths) + "|")
    print(flush=True)
