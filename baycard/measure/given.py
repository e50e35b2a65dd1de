"""Taking checked inputs out of what a method was given, for the functions that are not arithmetic."""

import re
from collections.abc import Mapping, Sequence

from baycard.measure.errors import MeasureError

Given = Mapping[str, float | str | list[float | str]]
"""Inputs by name, in their declared units."""
Answer = float | bool | str | Sequence[float] | Sequence[str] | Mapping[str, object]
"""What a method may give."""


def amount(given: Given, name: str) -> float:
    """One number. Raises MeasureError `missing-input`, `not-a-number`."""
    value = _value(given, name)
    if not isinstance(value, float):
        raise MeasureError("not-a-number", f"{name} needs a number")
    return value


def optional(given: Given, name: str) -> float | None:
    """One number, or None when it was left out."""
    return amount(given, name) if name in given else None


def whole(given: Given, name: str) -> int:
    """One whole number. Raises MeasureError also `out-of-range`."""
    value = amount(given, name)
    if value != int(value):
        raise MeasureError("out-of-range", f"{name} is a whole number")
    return int(value)


def text(given: Given, name: str) -> str:
    """One text, without spaces round it. Raises MeasureError `missing-input`, `wrong-unit`."""
    value = _value(given, name)
    if not isinstance(value, str):
        raise MeasureError("wrong-unit", f"{name} needs text")
    return value.strip()


def texts(given: Given, name: str) -> list[str]:
    """A list of texts."""
    value = _value(given, name)
    if not isinstance(value, list):
        raise MeasureError("wrong-unit", f"{name} needs a list of texts")
    found = [item.strip() for item in value if isinstance(item, str)]
    if len(found) < len(value):
        raise MeasureError("wrong-unit", f"{name} needs a list of texts")
    return found


def octets(given: Given, name: str) -> list[int]:
    """Bytes written in hexadecimal, spaces between them allowed."""
    digits = re.sub(r"[ \t]", "", text(given, name))
    if not re.fullmatch(r"([0-9A-Fa-f]{2})+", digits):
        raise MeasureError("outside-domain", f"{name} needs bytes in hexadecimal, two digits each")
    return [int(digits[i : i + 2], 16) for i in range(0, len(digits), 2)]


def _value(given: Given, name: str) -> float | str | list[float | str]:
    if name not in given:
        raise MeasureError("missing-input", f"{name} is needed")
    return given[name]
