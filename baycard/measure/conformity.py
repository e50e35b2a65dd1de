"""Decisions against tolerance limits with a guard band, and the risks they carry.

Sources: JCGM 106:2012 (clauses 7 to 9), ILAC-G8:09/2019 (4.2.2, 4.2.3). Every quantity of one call is in one unit;
`lower` and `upper` are the tolerance limits, None where there is none.
"""

import math

from baycard.measure.errors import MeasureError
from baycard.measure.special import bisect, gamma_above, integrate, normal_below, normal_quantile


def probability(y: float, u: float, lower: float | None, upper: float | None) -> float:
    """The probability that a quantity measured as y with standard uncertainty u lies within its tolerance (normal)."""
    if u <= 0:
        raise MeasureError("outside-domain", "the uncertainty is positive")
    above = 1.0 if upper is None else normal_below((upper - y) / u)
    return above - (0.0 if lower is None else normal_below((lower - y) / u))


def binary(y: float, guard: float, lower: float | None, upper: float | None) -> str:
    """`pass` inside the tolerance narrowed by the guard on each side, else `fail`."""
    return "pass" if _inside(y, guard, lower, upper) else "fail"


def nonbinary(y: float, guard: float, lower: float | None, upper: float | None) -> str:
    """`pass`, `conditional pass` (inside, within the guard), `conditional fail` (outside by less than it), `fail`."""
    if _inside(y, guard, lower, upper):
        return "pass"
    if _inside(y, 0.0, lower, upper):
        return "conditional pass"
    return "conditional fail" if _inside(y, -guard, lower, upper) else "fail"


def rejection_limit(limit: float, u_rel_percent: float, p: float) -> float:
    """The reading from which the limit is exceeded with probability p; uncertainty in per cent of the reading."""
    share = 1 - normal_quantile(p) * u_rel_percent / 100
    if share <= 0:
        raise MeasureError("outside-domain", "the uncertainty is too large for that probability")
    return limit / share


def false_accept_at_limit(r: float, k: float) -> float:
    """The greatest probability of a wrong pass with a guard band of r times the expanded uncertainty k u."""
    return normal_below(-r * k)


def guard_multiplier(risk: float, k: float) -> float:
    """The r that holds a wrong pass at the limit to the given risk."""
    if k <= 0:
        raise MeasureError("outside-domain", "the coverage factor is positive")
    return normal_quantile(1 - risk) / k


def gamma_out_of_tolerance(shape: float, scale: float, upper: float) -> float:
    """The part of a production with gamma-distributed values above the upper limit."""
    if scale <= 0:
        raise MeasureError("outside-domain", "the scale is positive")
    return gamma_above(shape, upper / scale)


def gamma_false_accept(shape: float, scale: float, upper: float, u: float, guard: float) -> float:
    """The part of a gamma-distributed production that is above the limit and yet measured below limit less guard."""
    if not 0 < shape <= 100 or scale <= 0 or u <= 0 or upper <= 0:
        raise MeasureError("outside-domain", "shape, scale, uncertainty and limit are positive")

    def accepted(value: float) -> float:
        x = value / scale
        density = math.exp((shape - 1) * math.log(x) - x - math.lgamma(shape)) / scale
        return density * normal_below((upper - guard - value) / u)

    return integrate(accepted, upper, upper + 12 * u + max(0.0, -guard))


def gamma_guard_for_risk(shape: float, scale: float, upper: float, u: float, target: float) -> float:
    """The guard band that holds the false acceptances of a gamma-distributed production to the target."""
    if not 0 < target < gamma_false_accept(shape, scale, upper, u, 0.0):
        raise MeasureError("outside-domain", "the target lies between 0 and the risk without a guard band")
    return bisect(lambda guard: target - gamma_false_accept(shape, scale, upper, u, guard), 0.0, 40 * u)


def _inside(y: float, guard: float, lower: float | None, upper: float | None) -> bool:
    if lower is None and upper is None:
        raise MeasureError("missing-input", "give at least one tolerance limit")
    return (lower is None or y >= lower + guard) and (upper is None or y <= upper - guard)
