"""Limits and readings in words, shared by `show` and the reference page."""

from baycard.checklists.show_answer import unit_text
from baycard.checklists.types import Limit

OF = {
    "value": "the reading",
    "min": "the smallest reading",
    "max": "the largest reading",
    "range": "the spread between readings",
    "side-difference": "the difference between left and right",
}


def limit_text(limit: Limit) -> str:
    """Such as "minor when the reading is above 0.1 mm"."""
    return f"{limit.grade} when {OF[limit.of]} is {_bound_text(limit)}"


def source_text(limit: Limit) -> str:
    """Where the limit comes from and for what it holds."""
    return f"Source: {limit.source} ({limit.basis}). Holds for: {limit.applies.rstrip('.')}"


def _bound_text(limit: Limit) -> str:
    if limit.maker is not None:
        return f"{limit.maker.is_} the maker's figure{_in(limit.unit)}: {limit.maker.ask}"
    sides = [("above", limit.above), ("below", limit.below)]
    return " or ".join(f"{side} {number:g}{unit_text(limit.unit)}" for side, number in sides if number is not None)


def _in(unit: str) -> str:
    words = unit_text(unit).strip()
    return f", in {words}" if words else ""
