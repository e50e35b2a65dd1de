"""Standard uncertainty of readings: what repeats show, what the instrument allows, how both combine (JCGM 100)."""

import math
from collections.abc import Sequence

from baycard.measure.arithmetic import mean, number, total
from baycard.measure.book import Instrument
from baycard.measure.errors import MeasureError
from baycard.measure.special import student_quantile


def resolution_part(step: float) -> float:
    """Type B, smallest step shown: step / sqrt(12), a rectangle half a step to either side (JCGM 100 F.2.2.1)."""
    return _size(step, "the resolution") / math.sqrt(12)


def limits_part(limit: float) -> float:
    """Type B, limits of error of +- limit: limit / sqrt(3), a rectangle (JCGM 100 4.3.7)."""
    return _size(limit, "the limit of error") / math.sqrt(3)


def spread(values: Sequence[float]) -> float:
    """Sample standard deviation of two or more readings (JCGM 100 4.2.2), in their unit."""
    if len(values) < 2:
        raise MeasureError("missing-input", "a spread needs two or more readings")
    middle = mean(values)
    return math.sqrt(total([(value - middle) * (value - middle) for value in values]) / (len(values) - 1))


def repeats_part(values: Sequence[float]) -> float:
    """Type A, of the mean of two or more readings: s / sqrt(n) (JCGM 100 4.2.3)."""
    return spread(values) / math.sqrt(len(values))


def combined(parts: Sequence[float]) -> float:
    """Parts that have nothing to do with each other, added in squares (JCGM 100 5.1.2)."""
    return math.sqrt(total([part * part for part in parts]))


def reading_uncertainty(values: Sequence[float], instrument: Instrument) -> float:
    """Standard uncertainty of the mean of the readings.

    values: all readings taken, in the instrument's unit. Repeats already show the resolution, so the larger of the two
    counts, not both; the limits of error are added in squares. Raises MeasureError `missing-input`, `not-a-number`,
    `out-of-range`.
    """
    if not values:
        raise MeasureError("missing-input", "there is no reading")
    readings = [number(value, "a reading") for value in values]
    scatter = repeats_part(readings) if len(readings) > 1 else 0.0
    return combined(
        [max(scatter, resolution_part(instrument.resolution)), limits_part(instrument.limit_of_error or 0.0)]
    )


def effective_freedom(u: float, parts: Sequence[float], freedoms: Sequence[float]) -> float:
    """Degrees of freedom of a combined uncertainty u by Welch and Satterthwaite (JCGM 100 G.4.1). Round it down."""
    if len(parts) != len(freedoms) or not parts:
        raise MeasureError("missing-input", "every part needs its degrees of freedom")
    if any(freedom <= 0 for freedom in freedoms):
        raise MeasureError("outside-domain", "degrees of freedom are positive")
    below = total([part * part * part * part / freedom for part, freedom in zip(parts, freedoms, strict=True)])
    if below == 0:
        raise MeasureError("outside-domain", "the parts are all zero")
    return u * u * u * u / below


def coverage_factor(probability: float, freedom: float) -> float:
    """Two-sided coverage factor of Student's distribution (JCGM 100 G.3.2); probability between 0 and 1."""
    if not 0 < probability < 1:
        raise MeasureError("outside-domain", "a probability lies between 0 and 1")
    return student_quantile((1 + probability) / 2, freedom)


def _size(value: float, what: str) -> float:
    if number(value, what) < 0:
        raise MeasureError("out-of-range", f"{what} cannot be negative")
    return value
