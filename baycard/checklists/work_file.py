"""Works a list of calculations out, one JSON answer for each: the methods of the book for scripts and checks."""

import difflib
import json
from collections.abc import Iterable, Mapping
from typing import Any

from baycard.checklists.problems import nearest
from baycard.checklists.types import Book, JsonValue
from baycard.measure.errors import MeasureError
from baycard.measure.methods import Quantity, work
from baycard.measure.units import Units

MOST_ITEMS = 100_000


class WorkFileError(ValueError):
    """The file is not a list of calculations; the message says what it must be."""


def read_items(text: str) -> list[JsonValue]:
    """The items of the file: [{"method": id, "inputs": {name: {"value": ..., "unit": ...}}}, ...]."""
    try:
        items = json.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError) as error:
        raise WorkFileError(f"the file is not JSON: {error}") from None
    if not isinstance(items, list):
        raise WorkFileError('the file must be one JSON list of {"method": ..., "inputs": {...}}')
    if len(items) > MOST_ITEMS:
        raise WorkFileError(f"the list has {len(items):,} items; at most {MOST_ITEMS:,} go at once, so split it")
    return items


def work_items(items: Iterable[JsonValue], book: Book) -> Iterable[dict[str, JsonValue]]:
    """For each item {"id"?, "method", "value", "unit", "u"}, or {"id"?, "method", "error": {"code", "detail"}}."""
    units = Units(book.units)
    for item in items:
        yield _worked(item, book, units)


def _worked(item: JsonValue, book: Book, units: Units) -> dict[str, JsonValue]:
    if not isinstance(item, dict):
        return {"method": None, "error": _error("unknown-method", "an item must be an object with a method")}
    head = {key: item[key] for key in ("id",) if key in item} | {"method": item.get("method")}
    try:
        result = _result(item, book, units)
    except MeasureError as error:
        return {**head, "error": _error(error.code, error.detail)}
    return {**head, **result}


def _result(item: Mapping[str, Any], book: Book, units: Units) -> dict[str, JsonValue]:
    method = book.methods.get(str(item.get("method")))
    if method is None:
        raise MeasureError("unknown-method", _no_such_method(item.get("method"), book))
    inputs = item.get("inputs", {})
    if not isinstance(inputs, dict):
        raise MeasureError("missing-input", "inputs must be an object of name to value and unit")
    given = {name: _quantity(name, amount) for name, amount in inputs.items()}
    unknown = sorted(set(given) - set(method.inputs))
    if unknown:
        meant = nearest(unknown[0], method.inputs)
        raise MeasureError("missing-input", f"{method.id} has no input {unknown[0]} ({meant})")
    result = work(method, given, units)
    return {"value": result.value, "unit": result.unit, "u": result.u}


def _no_such_method(name: JsonValue, book: Book) -> str:
    if not isinstance(name, str):
        return 'an item must name its method: {"method": ..., "inputs": {...}}'
    near = difflib.get_close_matches(name, book.methods, n=1)
    meant = f"did you mean {near[0]}?" if near else "see the reference page for all"
    return f"there is no method {name!r} ({meant})"


def _quantity(name: str, amount: JsonValue) -> Quantity:
    if not isinstance(amount, dict) or "value" not in amount:
        raise MeasureError("not-a-number", f'{name} must be written as {{"value": ..., "unit": ...}}')
    unit, u = amount.get("unit", "1"), amount.get("u")
    if not isinstance(unit, str):
        raise MeasureError("unknown-unit", f"the unit of {name} must be text")
    return Quantity(amount["value"], unit, u)


def _error(code: str, detail: str) -> dict[str, str]:
    return {"code": code, "detail": detail}
