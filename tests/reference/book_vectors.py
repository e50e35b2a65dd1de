"""Writes every worked example of the book's methods for the phone: python -m tests.reference.book_vectors."""

import json
from pathlib import Path
from typing import Any

from baycard.checklists.from_json import to_json
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book, Method, WorkedExample
from baycard.measure.methods import output_unit, units_wanted
from baycard.measure.units import Units

FILE = Path(__file__).parents[1] / "vectors" / "book-methods.json"
KEPT = ("id", "inputs", "output", "tree", "function")
SAYS = (
    "Every worked example of every method of the book; written by tests.reference.book_vectors, expected in its unit."
)


def vectors(book: Book) -> dict[str, Any]:
    """{"says", "methods": {id: method}, "cases": [{"id", "method", "inputs", "expected", "rtol", "atol"?}]}."""
    units = Units(book.units)
    kept = {id: to_json(method) for id, method in book.methods.items()}
    methods = {id: {name: one[name] for name in KEPT} for id, one in kept.items()}
    cases = [_case(method, example, units) for method in book.methods.values() for example in method.examples]
    return {"says": SAYS, "methods": methods, "cases": cases}


def _case(method: Method, example: WorkedExample, units: Units) -> dict[str, Any]:
    """The example with its answer in the unit the method gives it in."""
    wanted = units_wanted(method, {name: amount.unit for name, amount in example.inputs.items()})
    value, unit = example.expected.value, output_unit(method, wanted)
    if isinstance(value, int | float) and not isinstance(value, bool) and not unit.startswith("{"):
        value = units.convert(float(value), example.expected.unit, unit)
    case = {"id": example.id, "method": method.id, "inputs": to_json(example.inputs), "expected": value}
    return case | {"rtol": example.rtol} | ({} if example.atol is None else {"atol": example.atol})


def text(book: Book) -> str:
    """The file's text: one method and one case per line."""
    data = vectors(book)
    methods = ",\n".join(f"    {json.dumps(key)}: {json.dumps(one)}" for key, one in data["methods"].items())
    cases = ",\n".join(f"    {json.dumps(case)}" for case in data["cases"])
    return f'{{\n  "says": {json.dumps(SAYS)},\n  "methods": {{\n{methods}\n  }},\n  "cases": [\n{cases}\n  ]\n}}\n'


if __name__ == "__main__":
    FILE.write_text(text(load_book(seed_folder())), encoding="utf-8")
