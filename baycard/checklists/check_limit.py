"""Limits held against the answer they bound: a number and a direction, a fitting unit, something to bound."""

from baycard.checklists.known import Known
from baycard.checklists.problems import Spot
from baycard.checklists.types import (
    AnswerSpec,
    Check,
    Limit,
    NumberAnswer,
    RunAnswer,
    SpreadAnswer,
    WorkedOutAnswer,
)

NUMERIC = (NumberAnswer, SpreadAnswer, RunAnswer, WorkedOutAnswer)
OF_MANY = ("min", "max", "range")
DIFFERENCES = ("range", "side-difference")


def check_limits(check: Check, spot: Spot, known: Known) -> None:
    """Reports every limit of the check that cannot be applied."""
    for number, limit in enumerate(check.limits):
        at = spot.down("limits", number)
        if limit.id in [other.id for other in check.limits[:number]]:
            at.down("id").report(f"limit {limit.id} is written twice", "choose another id")
        if not isinstance(check.answer, NUMERIC):
            at.report(f"a {check.answer.kind} answer has no number to hold against a limit", "give the option a grade")
            continue
        known.check_same_quantity(limit.unit, check.answer.unit, "the answer", at.down("unit"))
        _check_bound(limit, at)
        _check_reach(limit, check.answer, at, known)
        if limit.maker is not None:
            known.check_figure(limit.maker.key, limit.unit, at.down("maker", "key"), at.down("unit"))
        _check_of(limit, check, at.down("of"), known)


def _check_bound(limit: Limit, spot: Spot) -> None:
    numbers = [number for number in (limit.above, limit.below) if number is not None]
    if limit.maker is None and not numbers:
        spot.report("limit has no number", "write `above:`, `below:`, or `maker:` to ask for the maker's figure")
    if limit.maker is not None and numbers:
        spot.report("limit has a number and also asks for the maker's figure", "write one of them")
    if limit.maker is not None and limit.basis != "maker's data":
        spot.down("basis").report("limit asks for the maker's figure but its basis is not maker's data")
    if limit.above is not None and limit.below is not None and limit.below >= limit.above:
        spot.report("limit is crossed by every reading", "`below` must be smaller than `above`")


def _check_reach(limit: Limit, answer: AnswerSpec, spot: Spot, known: Known) -> None:
    """A number that no answer within the range can come to: a slip of the decimal point, or the wrong unit."""
    if not isinstance(answer, NumberAnswer | SpreadAnswer | RunAnswer):
        return
    if not known.units.compatible(limit.unit, answer.unit):
        return
    low, high = answer.range
    convert = known.units.convert
    if limit.of in DIFFERENCES:
        low, high, convert = 0, high - low, known.units.convert_difference
    for side, bound in (("above", limit.above), ("below", limit.below)):
        if bound is not None and not low <= convert(bound, limit.unit, answer.unit) <= high:
            says = f"{bound:g} {limit.unit} can never be reached: answers run from {low:g} to {high:g} {answer.unit}"
            spot.down(side).report(says, "mend the number or its unit, or widen `range:`")


def _check_of(limit: Limit, check: Check, spot: Spot, known: Known) -> None:
    if limit.of in OF_MANY and not isinstance(check.answer, SpreadAnswer | RunAnswer):
        spot.report(f"{limit.of} needs several readings", "use `value`, or make the answer a spread or a run")
    if limit.of == "value" and isinstance(check.answer, SpreadAnswer):
        spot.report("a spread has no single value", "use min, max or range")
    if limit.of == "side-difference":
        pairs = [known.places[id].pair for id in check.at if id in known.places]
        if not any(pair in check.at for pair in pairs):
            spot.report("side-difference needs a place and its pair among the places of the check")
