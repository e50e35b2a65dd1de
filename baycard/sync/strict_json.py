"""Reads JSON as it may come from outside: without endless numbers, and no whole number that no phone holds."""

import json

SAFE_INTEGER_DIGITS = 15


def strict_json(data: bytes) -> object:
    """The value of a JSON text. Raises ValueError or RecursionError for what is none."""
    value: object = json.loads(data, parse_constant=_refuse, parse_int=_integer)
    return value


def _refuse(word: str) -> float:
    raise ValueError(word)


def _integer(digits: str) -> int | float:
    # Larger whole numbers would not survive the phone, where every number is a double.
    return int(digits) if len(digits) <= SAFE_INTEGER_DIGITS else float(digits)
