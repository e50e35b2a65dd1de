"""Runs one case of the book's vectors on the server's evaluator."""

from typing import Any

from baycard.checklists.types import Book
from baycard.measure.errors import MeasureError
from baycard.measure.methods import Quantity, work
from baycard.measure.units import Units


def worked(case: dict[str, Any], book: Book, units: Units) -> Any:
    """The value the method gives, in its own unit."""
    method = book.methods[case["method"]]
    given = {name: Quantity(amount["value"], amount["unit"]) for name, amount in case["inputs"].items()}
    return work(method, given, units).value


def gives_expected(case: dict[str, Any], book: Book, units: Units) -> bool:
    """Whether the value is the expected one within the case's tolerance."""
    try:
        value = worked(case, book, units)
    except MeasureError:
        return False
    return agrees(value, case)


def agrees(value: Any, case: dict[str, Any]) -> bool:
    """Numbers agree within the tolerance, anything else exactly."""
    expected = case["expected"]
    if isinstance(expected, bool | str | list | dict) or isinstance(value, bool | str | list | dict):
        return bool(value == expected)
    return bool(abs(value - expected) <= max((case["rtol"] or 1e-15) * abs(expected), case.get("atol", 1e-12)))
