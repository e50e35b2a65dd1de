"""Whether a reading is in order, beyond its limit, or too close to call, and what would settle it (JCGM 106)."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from baycard.measure.arithmetic import mean, number
from baycard.measure.book import Instrument
from baycard.measure.errors import MeasureError
from baycard.measure.uncertainty import combined, limits_part, reading_uncertainty, resolution_part, spread

State = Literal["in-order", "beyond", "too-close", "recorded"]
MOST_REPEATS = 30


@dataclass(frozen=True, slots=True)
class Bounds:
    """A reading above `above`, or below `below`, is beyond the limit; None where there is no such bound."""

    above: float | None = None
    below: float | None = None


@dataclass(frozen=True, slots=True)
class Settle:
    """What would make a reading clear if it stays where it is.

    repeats: how many readings in all with the same instrument, None when repeating cannot do it;
    instruments: ids of the instruments that would do it with as many readings as were taken.
    """

    repeats: int | None
    instruments: tuple[str, ...]


def verdict(value: float, u: float, bounds: Bounds, k: float = 2.0) -> State:
    """Where a reading stands against its bounds, all in one unit.

    u: standard uncertainty; value +- k u is the coverage interval. A bound strictly inside it makes the reading too
    close to call, so both `in-order` and `beyond` are guarded decisions (JCGM 106:2012, 8.3, guard band k u).
    No bound: `recorded`, never a pass. Raises MeasureError `not-a-number`, `out-of-range`.
    """
    reach = _reach(u, k)
    states = [_against(sign * number(value, "the reading"), sign * bound, reach) for sign, bound in _sides(bounds)]
    if not states:
        return "recorded"
    return next(state for state in ("beyond", "too-close", "in-order") if state in states)


def settle(
    values: Sequence[float],
    instrument: Instrument,
    bounds: Bounds,
    others: Mapping[str, Instrument],
    k: float = 2.0,
) -> Settle:
    """How many readings, or which other instruments, would make the verdict on the mean of `values` clear.

    values, bounds and every instrument in one unit. Empty when nothing would, for instance with the limit itself read.
    """
    value = mean([number(reading, "a reading") for reading in values]) if values else 0.0
    gap = min((abs(value - bound) for _, bound in _sides(bounds)), default=0.0) / k
    if not values or gap == 0:
        return Settle(None, ())
    able = tuple(id for id, other in others.items() if reading_uncertainty(values, other) <= gap)
    return Settle(_repeats(values, instrument, gap), able)


def _repeats(values: Sequence[float], instrument: Instrument, gap: float) -> int | None:
    """The least number of readings whose mean has an uncertainty of no more than the gap (u falls as s / sqrt(n))."""
    limits = limits_part(instrument.limit_of_error or 0.0)
    if len(values) < 2 or combined([resolution_part(instrument.resolution), limits]) > gap:
        return None
    scatter = spread(values)
    for count in range(len(values), MOST_REPEATS + 1):
        if combined([scatter / math.sqrt(count), limits]) <= gap:
            return count
    return None


def _sides(bounds: Bounds) -> list[tuple[int, float]]:
    """Each bound with the sign that turns it into one not to be exceeded."""
    sides = [(1, bounds.above), (-1, bounds.below)]
    return [(sign, number(bound, "the limit")) for sign, bound in sides if bound is not None]


def _against(value: float, bound: float, reach: float) -> State:
    if value + reach <= bound:
        return "in-order"
    return "beyond" if value - reach >= bound else "too-close"


def _reach(u: float, k: float) -> float:
    if number(u, "the uncertainty") < 0 or number(k, "the coverage factor") <= 0:
        raise MeasureError("out-of-range", "an uncertainty is not negative and a coverage factor is positive")
    return k * u
