"""Distributions that have no closed form: normal, Student and gamma. The same steps as on the phone.

Sources: NIST Digital Library of Mathematical Functions 7.2, 8.7, 8.9, 8.17.22; fractions by the modified Lentz method.
"""

import math
from collections.abc import Callable

from baycard.measure.errors import MeasureError

STEPS = 500
HALVINGS = 200
TINY = 1e-300
CLOSE = 1e-15


def normal_below(z: float) -> float:
    """The part of a standard normal distribution below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2))


def normal_quantile(p: float) -> float:
    """The z below which the part p of a standard normal distribution lies."""
    if not 0 < p < 1:
        raise MeasureError("outside-domain", "a probability lies between 0 and 1")
    if p > 0.5:
        return -normal_quantile(1 - p)
    return bisect(lambda z: normal_below(z) - p, -40.0, 0.0)


def student_quantile(p: float, freedom: float) -> float:
    """The t below which the part p >= 0.5 of Student's distribution lies; freedom >= 1."""
    if not 1 <= freedom <= 1e6:
        raise MeasureError("outside-domain", "degrees of freedom lie between 1 and a million")
    high = 1.0
    while _student_above(high, freedom) > 1 - p:
        high *= 2
        if high > 1e12:
            raise MeasureError("outside-domain", "the probability is too near to 1")
    return bisect(lambda t: 1 - p - _student_above(t, freedom), 0.0, high)


def gamma_above(shape: float, x: float) -> float:
    """The part of a gamma distribution (scale 1) above x: the regularised upper incomplete gamma function."""
    if not 0 < shape <= 1e4 or x < 0:
        raise MeasureError("outside-domain", "a gamma distribution needs a positive shape and no negative value")
    if x == 0:
        return 1.0
    scale = math.exp(shape * math.log(x) - x - math.lgamma(shape))
    return 1 - scale * _gamma_series(shape, x) if x < shape + 1 else scale * _gamma_fraction(shape, x)


def bisect(work: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function crosses zero, to the last digit that halving can give."""
    middle, left = (low + high) / 2, HALVINGS
    while left and low < middle < high:
        if work(middle) < 0:
            low = middle
        else:
            high = middle
        middle, left = (low + high) / 2, left - 1
    return middle


def integrate(work: Callable[[float], float], low: float, high: float, panels: int = 400) -> float:
    """Simpson's rule over an even number of panels."""
    width = (high - low) / panels
    result = work(low) + work(high)
    for i in range(1, panels):
        result += (4 if i % 2 else 2) * work(low + i * width)
    return result * width / 3


def _student_above(t: float, freedom: float) -> float:
    return 0.5 * _beta_below(freedom / 2, 0.5, freedom / (freedom + t * t))


def _beta_below(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function."""
    if x >= 1:
        return 1.0
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log(1 - x))
    if x < (a + 1) / (a + b + 2):
        return front * _beta_fraction(a, b, x) / a
    return 1 - front * _beta_fraction(b, a, 1 - x) / b


def _beta_fraction(a: float, b: float, x: float) -> float:
    c, d = 1.0, 1 / _apart(1 - (a + b) * x / (a + 1))
    result, change, m = d, 0.0, 1
    while abs(change - 1) >= CLOSE and m < STEPS:
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1 / _apart(1 + term * d)
            c = _apart(1 + term / c)
            change = c * d
            result *= change
        m += 1
    return result


def _gamma_series(shape: float, x: float) -> float:
    term = result = 1 / shape
    n = 1
    while term >= result * CLOSE and n < STEPS:
        term *= x / (shape + n)
        result += term
        n += 1
    return result


def _gamma_fraction(shape: float, x: float) -> float:
    b = x + 1 - shape
    c, d = 1 / TINY, 1 / _apart(b)
    result, change, n = d, 0.0, 1
    while abs(change - 1) >= CLOSE and n < STEPS:
        term = -n * (n - shape)
        b += 2
        d = 1 / _apart(term * d + b)
        c = _apart(b + term / c)
        change = c * d
        result *= change
        n += 1
    return result


def _apart(value: float) -> float:
    """The value, kept away from zero so that it can be divided by."""
    return value if abs(value) > TINY else TINY
