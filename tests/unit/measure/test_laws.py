"""Laws of verdicts and uncertainties, and agreement with an independent library."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import special, stats

from baycard.measure.conformity import probability
from baycard.measure.special import gamma_above, normal_below, normal_quantile, student_quantile
from baycard.measure.uncertainty import reading_uncertainty, repeats_part, resolution_part
from baycard.measure.verdict import Bounds, settle, verdict
from tests.unit.measure.gauges import Gauge
from tests.unit.measure.tables import units

readings = st.floats(min_value=-1e6, max_value=1e6)
sizes = st.floats(min_value=1e-6, max_value=1e3)
RISING = ("in-order", "too-close", "beyond")
LENGTHS = ("mm", "[in_i]", "um", "m", "[mil_i]")


@given(readings, readings, sizes, readings)
def test_a_higher_reading_is_never_judged_better_against_an_upper_limit(
    a: float, b: float, u: float, limit: float
) -> None:
    low, high = sorted((a, b))
    bounds = Bounds(above=limit)
    assert RISING.index(verdict(low, u, bounds)) <= RISING.index(verdict(high, u, bounds))


@given(readings, readings, sizes, readings)
def test_a_lower_reading_is_never_judged_better_against_a_lower_limit(
    a: float, b: float, u: float, limit: float
) -> None:
    low, high = sorted((a, b))
    bounds = Bounds(below=limit)
    assert RISING.index(verdict(high, u, bounds)) <= RISING.index(verdict(low, u, bounds))


@given(readings, sizes, st.floats(min_value=-0.999, max_value=0.999), st.booleans())
def test_a_limit_inside_the_coverage_interval_is_always_too_close_to_call(
    value: float, u: float, place: float, upper: bool
) -> None:
    limit = value + place * 2 * u
    assume(value - 2 * u < limit < value + 2 * u)
    bounds = Bounds(above=limit) if upper else Bounds(below=limit)
    assert verdict(value, u, bounds) == "too-close"


@given(readings, sizes, readings, readings)
def test_two_limits_judge_no_better_than_the_worse_of_them(value: float, u: float, above: float, below: float) -> None:
    both = verdict(value, u, Bounds(above=above, below=below))
    each = (verdict(value, u, Bounds(above=above)), verdict(value, u, Bounds(below=below)))
    assert RISING.index(both) == max(map(RISING.index, each))


@given(readings, sizes, readings, st.sampled_from(LENGTHS), st.sampled_from(LENGTHS))
def test_the_verdict_does_not_hang_on_the_unit(value: float, u: float, limit: float, a: str, b: str) -> None:
    distance = min(abs(limit - value - 2 * u), abs(limit - value + 2 * u))
    assume(distance > 1e-9 * max(abs(value), abs(limit), u))
    other = Bounds(above=units().convert(limit, a, b))
    judged = verdict(units().convert(value, a, b), units().convert_difference(u, a, b), other)
    assert judged == verdict(value, u, Bounds(above=limit))


@given(st.lists(readings, min_size=1, max_size=8), sizes, st.none() | sizes)
def test_an_uncertainty_is_never_less_than_what_the_instrument_allows(
    values: list[float], step: float, limit: float | None
) -> None:
    u = reading_uncertainty(values, Gauge(step, limit))
    assert u >= resolution_part(step)
    assert u >= (limit or 0) / math.sqrt(3)
    assert len(values) == 1 or u >= repeats_part(values)


@given(
    st.lists(st.floats(min_value=0, max_value=100), min_size=2, max_size=6),
    sizes,
    st.floats(min_value=0, max_value=100),
)
def test_what_is_said_to_settle_a_reading_settles_it(values: list[float], step: float, limit: float) -> None:
    gauge, fine, bounds = Gauge(step), Gauge(step / 10), Bounds(above=limit)
    found = settle(values, gauge, bounds, {"fine": fine})
    middle = sum(values) / len(values)
    assume(abs(middle - limit) > 1e-9)
    if "fine" in found.instruments:
        assert verdict(middle, reading_uncertainty(values, fine) * (1 - 1e-9), bounds) != "too-close"
    if found.repeats is not None:
        scatter = repeats_part(values) * math.sqrt(len(values) / found.repeats)
        u = max(scatter, resolution_part(step))
        assert verdict(middle, u * (1 - 1e-9), bounds) != "too-close"


@given(st.floats(min_value=-30, max_value=8))
def test_the_normal_distribution_agrees_with_an_independent_library(z: float) -> None:
    assert normal_below(z) == pytest.approx(stats.norm.cdf(z), rel=1e-12)


@given(st.floats(min_value=1e-12, max_value=1 - 1e-12))
def test_the_normal_quantile_agrees_with_an_independent_library(p: float) -> None:
    assert normal_quantile(p) == pytest.approx(stats.norm.ppf(p), rel=1e-9, abs=1e-12)


@given(st.floats(min_value=0.51, max_value=0.9999), st.floats(min_value=1, max_value=1000))
def test_the_student_quantile_agrees_with_an_independent_library(p: float, freedom: float) -> None:
    assert student_quantile(p, freedom) == pytest.approx(stats.t.ppf(p, freedom), rel=1e-9)


@given(st.floats(min_value=0.1, max_value=200), st.floats(min_value=0, max_value=400))
def test_the_gamma_distribution_agrees_with_an_independent_library(shape: float, x: float) -> None:
    assert gamma_above(shape, x) == pytest.approx(special.gammaincc(shape, x), rel=1e-9, abs=1e-12)


@given(readings, sizes, readings, sizes)
def test_the_probabilities_inside_above_and_below_make_one(y: float, u: float, lower: float, width: float) -> None:
    upper = lower + width
    inside = probability(y, u, lower, upper)
    assert inside + (1 - probability(y, u, None, upper)) + (1 - probability(y, u, lower, None)) == pytest.approx(1)
