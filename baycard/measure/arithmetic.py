"""The functions that a formula tree may call, with the same rules at the edges as on the phone."""

import itertools
import math
from collections.abc import Callable, Mapping, Sequence

from baycard.measure.errors import MeasureError

Value = float | list[float] | bool
MANY = 200
LARGEST_EXPONENT = 1_000


def number(value: object, where: str) -> float:
    """The value as a float. Raises MeasureError `not-a-number` for text, truth values, NaN and infinities."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise MeasureError("not-a-number", f"{where} needs a number")
    try:
        plain = float(value)
    except OverflowError:
        plain = math.inf
    if not math.isfinite(plain):
        raise MeasureError("not-a-number", f"{where} needs a number that can be counted")
    return plain


def finite(value: float) -> float:
    """The value, if it is one. Raises MeasureError `outside-domain`."""
    if not math.isfinite(value):
        raise MeasureError("outside-domain", "the result cannot be counted")
    return value


def as_number(value: Value) -> float:
    """The value, which must be one number."""
    if isinstance(value, bool | list):
        raise MeasureError("not-a-number", "the formula needs one number here")
    return value


def as_list(value: Value) -> list[float]:
    """The value, which must be a list with something in it."""
    if not _any_list(value):
        raise MeasureError("outside-domain", "a list is empty")
    return _any_list(value)


def _any_list(value: Value) -> list[float]:
    if not isinstance(value, list):
        raise MeasureError("not-a-number", "the formula needs a list here")
    return value


def over(work: Callable[[float], float], value: Value) -> Value:
    """The work done on a number, or on each number of a list."""
    if isinstance(value, list):
        return [work(item) for item in value]
    return work(as_number(value))


def power(base: float, exponent: float) -> float:
    """base ** exponent. Raises MeasureError `too-large` for huge exponents, `outside-domain` for no real result."""
    if abs(exponent) > LARGEST_EXPONENT:
        raise MeasureError("too-large", f"an exponent is beyond {LARGEST_EXPONENT}")
    return _guarded(lambda x: math.pow(x, exponent))(base)


def round_away(value: float) -> float:
    """To the nearest whole number, halves away from zero."""
    whole = math.floor(abs(value))
    rounded = whole + 1 if abs(value) - whole >= 0.5 else whole
    return math.copysign(rounded, value)


def total(values: Sequence[float]) -> float:
    """The plain sum from first to last (not a compensated one, so that both languages round alike)."""
    result = 0.0
    for value in values:
        result += value
    return finite(result)


def mean(values: Sequence[float]) -> float:
    """The arithmetic mean of at least one value."""
    return total(values) / len(values)


def slope(xs: Sequence[float], ys: Sequence[float]) -> float:
    """The slope of the straight line through the points by least squares, in y per x."""
    if len(xs) != len(ys) or len(xs) < 2:
        raise MeasureError("outside-domain", "a slope needs two lists of equal length with two or more points")
    x_mean, y_mean = mean(xs), mean(ys)
    across = total([(x - x_mean) * (x - x_mean) for x in xs])
    if across == 0:
        raise MeasureError("outside-domain", "a slope needs points that differ")
    return finite(total([(x - x_mean) * (y - y_mean) for x, y in zip(xs, ys, strict=True)]) / across)


def interpolate(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Straight between the two neighbours in a table with rising xs; never beyond its ends."""
    if len(xs) != len(ys) or any(b <= a for a, b in itertools.pairwise(xs)):
        raise MeasureError("outside-domain", "a table needs two lists of equal length, the first rising")
    if not xs[0] <= x <= xs[-1]:
        raise MeasureError("outside-domain", "the value lies outside the table")
    i = next(i for i in range(len(xs)) if x <= xs[i])
    if x == xs[i]:
        return ys[i]
    return finite(ys[i - 1] + (ys[i] - ys[i - 1]) * ((x - xs[i - 1]) / (xs[i] - xs[i - 1])))


def _guarded(work: Callable[[float], float]) -> Callable[[float], float]:
    """The work with every refusal of the mathematics library turned into `outside-domain`."""

    def guarded(x: float) -> float:
        try:
            return finite(work(x))
        except (ValueError, OverflowError):
            raise MeasureError("outside-domain", f"the formula has no result at {x:g}") from None

    return guarded


def _each(work: Callable[[float], float]) -> tuple[int, int, Callable[..., Value]]:
    guarded = _guarded(work)
    return (1, 1, lambda value: over(guarded, value))


def _of_list(work: Callable[[list[float]], float]) -> tuple[int, int, Callable[..., Value]]:
    return (1, 1, lambda value: work(as_list(value)))


def _of_several(work: Callable[[list[float]], float]) -> tuple[int, int, Callable[..., Value]]:
    """Either one list or two and more numbers."""
    return (1, MANY, lambda *values: work(as_list(values[0]) if len(values) == 1 else [as_number(v) for v in values]))


CALLS: Mapping[str, tuple[int, int, Callable[..., Value]]] = {
    "sqrt": _each(math.sqrt),
    "ln": _each(math.log),
    "log10": _each(math.log10),
    "exp": _each(math.exp),
    "sin": _each(math.sin),
    "cos": _each(math.cos),
    "tan": _each(math.tan),
    "asin": _each(math.asin),
    "acos": _each(math.acos),
    "atan": _each(math.atan),
    "abs": _each(abs),
    "round": _each(round_away),
    "floor": _each(lambda x: float(math.floor(x))),
    "pow": (2, 2, lambda base, exponent: power(as_number(base), as_number(exponent))),
    "min": _of_several(min),
    "max": _of_several(max),
    "sum": _of_list(total),
    "mean": _of_list(mean),
    "count": (1, 1, lambda values: float(len(_any_list(values)))),
    "first": _of_list(lambda values: values[0]),
    "last": _of_list(lambda values: values[-1]),
    "slope": (2, 2, lambda xs, ys: slope(as_list(xs), as_list(ys))),
    "interp": (3, 3, lambda x, xs, ys: interpolate(as_number(x), as_list(xs), as_list(ys))),
    "pi": (0, 0, lambda: math.pi),
}
"""Each function: least and most arguments, and the work."""
