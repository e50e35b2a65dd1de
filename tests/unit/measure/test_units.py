"""The workshop's unit table: sources, independent factors, and laws of conversion."""

import json
import math
from fractions import Fraction
from functools import cache
from typing import Any

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from baycard.measure.units import Units
from tests.unit.measure.tables import VECTORS, unit_rows, unit_table, units

CODES = sorted(unit_table()["atoms"])
PREFIXED = [
    prefix + code for code in ("m", "Pa", "L", "g", "A", "Ohm") for prefix in ("k", "m", "u", "M", "c", "da", "")
]
GROUPS = [
    [a for a in CODES if units().compatible(a, code)] for code in ("m", "Pa", "L", "J", "W", "kg", "N", "s", "deg")
]
values = st.floats(min_value=-1e9, max_value=1e9).filter(lambda x: x == 0 or abs(x) > 1e-9)

NAMES = {
    **{
        "[in_i]": "inch",
        "[ft_i]": "foot",
        "[yd_i]": "yard",
        "[mi_i]": "mile",
        "[mil_i]": "thou",
        "[nmi_i]": "nautical_mile",
    },
    **{"[sin_i]": "inch**2", "[sft_i]": "foot**2", "[cin_i]": "inch**3", "[cft_i]": "foot**3"},
    **{
        "[lb_av]": "pound",
        "[oz_av]": "ounce",
        "[ston_av]": "short_ton",
        "[lbf_av]": "force_pound",
        "[ozf_av]": "force_ounce",
    },
    **{"[gal_us]": "gallon", "[qt_us]": "quart", "[pt_us]": "pint", "[foz_us]": "fluid_ounce"},
    **{"[gal_br]": "imperial_gallon", "[qt_br]": "imperial_quart", "[pt_br]": "imperial_pint"},
    **{"[foz_br]": "imperial_fluid_ounce", "[psi]": "psi", "bar": "bar", "atm": "atm", "att": "technical_atmosphere"},
    **{
        "mm[Hg]": "mmHg",
        "[in_i'Hg]": "inHg",
        "[HP]": "horsepower",
        "75.kgf.m/s": "metric_horsepower",
        "[Btu_IT]": "Btu_it",
    },
    **{
        "kgf": "kilogram_force",
        "gf": "gram_force",
        "dyn": "dyne",
        "[g]": "standard_gravity",
        "P": "poise",
        "St": "stokes",
    },
    **{"deg": "degree", "'": "arcminute", "''": "arcsecond", "min": "minute", "h": "hour", "d": "day", "wk": "week"},
    **{"a": "julian_year", "t": "metric_ton", "[kn_i]": "knot", "cal_IT": "cal_it", "[degR]": "degR"},
    **{"gon": "grade", "circ": "turn", "ar": "are", "A.h": "ampere_hour"},
    **{
        "[lton_av]": "long_ton",
        "[scwt_av]": "US_hundredweight",
        "[lcwt_av]": "UK_hundredweight",
        "[stone_av]": "stone",
    },
    **{"[dr_av]": "dram", "[gr]": "grain", "[syd_i]": "yard**2", "[cyd_i]": "yard**3"},
    **{"[ft_us]": "survey_foot", "[mi_us]": "survey_mile", "[cml_i]": "circular_mil", "a_j": "julian_year"},
    **{
        "[gil_us]": "gill",
        "[cup_us]": "cup",
        "[tbs_us]": "tablespoon",
        "[tsp_us]": "teaspoon",
        "[bbl_us]": "oil_barrel",
    },
    **{"cal": "calorie", "kcal_th": "kilocalorie", "erg": "erg"},
}


@pytest.mark.parametrize("code", list(NAMES))
def test_the_factor_agrees_with_an_independent_library(code: str) -> None:
    theirs = registry().Quantity(1, NAMES[code]).to_base_units().magnitude
    assert units().read(code).factor == pytest.approx(theirs, rel=1e-9)


@cache
def registry() -> "pint.UnitRegistry[Any]":
    return pint.UnitRegistry()


def test_every_row_says_what_it_is_and_where_its_factor_comes_from() -> None:
    for row in (*unit_rows()["atoms"], *unit_rows()["prefixes"]):
        assert row["says"]
        assert row["source"]
        assert Fraction(row["factor"]) > 0


def test_no_code_stands_twice() -> None:
    codes = [row["code"] for row in unit_rows()["atoms"]]
    assert len(set(codes)) == len(codes)


def test_the_table_of_the_phone_tests_is_the_one_of_the_yaml() -> None:
    kept = json.loads((VECTORS / "measure-unit-table.json").read_text())
    assert kept == unit_table()


@pytest.mark.parametrize("code", [*CODES, *PREFIXED])
def test_every_unit_is_itself(code: str) -> None:
    assert units().convert(3.7, code, code) == 3.7
    assert units().convert_difference(3.7, code, code) == 3.7


@given(st.sampled_from(GROUPS).flatmap(lambda g: st.tuples(*[st.sampled_from(g)] * 3)), values)
def test_a_way_round_three_units_comes_back(codes: tuple[str, str, str], value: float) -> None:
    a, b, c = codes
    there = units().convert(units().convert(value, a, b), b, c)
    assert units().convert(there, c, a) == pytest.approx(value, rel=1e-12)
    assert there == pytest.approx(units().convert(value, a, c), rel=1e-12)


@given(values, values, st.sampled_from(["Cel", "K", "[degF]", "[degR]"]), st.sampled_from(["Cel", "K", "[degF]"]))
def test_a_difference_of_temperatures_is_the_converted_difference(x: float, y: float, a: str, b: str) -> None:
    assume(abs(x - y) > 1e-3)
    apart = units().convert(x, a, b) - units().convert(y, a, b)
    assert apart == pytest.approx(units().convert_difference(x - y, a, b), rel=1e-6, abs=1e-6)


@given(st.text(max_size=12) | st.text(alphabet="mkPag./{}[]()123-+' ", max_size=12))
def test_any_text_is_a_unit_or_is_not(code: str) -> None:
    table: Any = unit_table()
    fresh = Units(table)
    if fresh.compatible(code, code):
        assert fresh.read(code).factor > 0
        assert math.isfinite(fresh.read(code).factor)
