"""Writes the independently computed examples for the book: python -m tests.reference.independent_examples."""

import json
from collections import Counter
from typing import Any

from baycard.checklists.seed import seed_folder
from tests.reference.independent import electrics, flow, leaks, statistics_and_signals, wheels, written
from tests.reference.independent.table import Example

FILE = seed_folder() / "examples" / "independent.json"
MODULES = (flow, leaks, electrics, wheels, statistics_and_signals, written)


def examples() -> list[dict[str, Any]]:
    """Every example as the examples folder holds it, with an id from its method and number."""
    counted: Counter[str] = Counter()
    made = []
    for one in (example for module in MODULES for example in module.EXAMPLES):
        counted[one.method] += 1
        made.append(_row(one, f"ind-{one.method}-{counted[one.method]}"))
    return made


def _row(one: Example, id: str) -> dict[str, Any]:
    expected = {"value": one.value, "unit": one.unit}
    rest = {"rtol": one.rtol, "source": one.source, "basis": one.basis}
    return {"id": id, "method": one.method, "inputs": dict(one.inputs), "expected": expected, **rest}


def text(rows: list[dict[str, Any]]) -> str:
    """The file's text, one example per line."""
    return "[\n" + ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows) + "\n]\n"


if __name__ == "__main__":
    FILE.write_text(text(examples()), encoding="utf-8")
