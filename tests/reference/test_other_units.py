"""A method takes any unit of the same kind, and the units are those of pint."""

import json
from functools import cache
from typing import Any

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from baycard.measure.units import Units
from tests.reference.book_vectors import FILE
from tests.reference.independent.table import UNITS, Q, pint_unit
from tests.reference.running import gives_expected

OTHERS = {
    **{"mm": "[in_i]", "um": "[in_i]", "km": "[mi_i]", "m": "[ft_i]", "[in_i]": "cm", "[ft_i]": "m", "mm2": "cm2"},
    **{"kPa": "[psi]", "Pa": "mbar", "L": "[gal_us]", "mL": "[foz_us]", "s": "min", "km/h": "[mi_i]/h", "h": "s"},
    **{
        "Cel": "[degF]",
        "[degF]": "K",
        "K": "Cel",
        "deg": "'",
        "N.m": "[lbf_av].[ft_i]",
        "N": "[lbf_av]",
        "g/s": "kg/h",
    },
    **{
        "g/s": "kg/h",
        "V": "mV",
        "A": "mA",
        "mA": "A",
        "Ohm": "kOhm",
        "Ohm/km": "mOhm/m",
        "kg": "[lb_av]",
        "kg/m3": "g/cm3",
    },
    **{"A.h": "mA.h", "Hz": "/min", "{rev}/min": "Hz", "%": "1", "L/(1000.km)": "mL/km", "mL/h": "L/d", "W": "kW"},
}
DIFFERENCES = {"temperature-convert", "apparent-leak-from-temperature-drift"}
"""A drift in kelvin is no reading on a scale; conversions take bare numbers."""


@cache
def book() -> Book:
    return load_book(seed_folder())


def cases() -> dict[str, dict[str, Any]]:
    """For each method its first example that has an input in a unit with another one."""
    found: dict[str, dict[str, Any]] = {}
    for case in json.loads(FILE.read_text("utf-8"))["cases"]:
        if case["method"] in DIFFERENCES or case["method"] in found:
            continue
        if any(is_plain(one) for one in case["inputs"].values()):
            found[case["method"]] = case
    return found


def is_plain(amount: dict[str, Any]) -> bool:
    values = amount["value"] if isinstance(amount["value"], list) else [amount["value"]]
    return amount["unit"] in OTHERS and not any(isinstance(one, str) for one in values)


def in_other_unit(amount: dict[str, Any], units: Units) -> dict[str, Any]:
    if not is_plain(amount):
        return amount
    unit = OTHERS[amount["unit"]]
    values = amount["value"] if isinstance(amount["value"], list) else [amount["value"]]
    moved = [units.convert(one, amount["unit"], unit) for one in values]
    return {"value": moved if isinstance(amount["value"], list) else moved[0], "unit": unit}


CASES = cases()


@pytest.mark.parametrize("method", [id for id in CASES if "{any}" not in str(book().methods[id].inputs)])
def test_a_method_gives_the_same_answer_in_other_units(method: str) -> None:
    case, units = CASES[method], Units(book().units)
    moved = {name: in_other_unit(amount, units) for name, amount in case["inputs"].items()}
    slack = {"rtol": max(case["rtol"], 1e-9), "atol": max(case.get("atol", 0), 1e-9)}
    assert gives_expected({**case, "inputs": moved, **slack}, book(), units)


def test_nearly_every_method_with_amounts_was_tried_in_other_units() -> None:
    assert len(CASES) > 150


@pytest.mark.parametrize("code", [code for code in UNITS if not code.startswith("{") or "/" in code])
def test_a_unit_is_as_large_as_pint_says(code: str) -> None:
    ours = Units(book().units).read(code)
    theirs = Q(1.0, pint_unit(code)).to_base_units()
    if code in ("Cel", "[degF]"):
        assert Units(book().units).convert(1, code, "K") == pytest.approx(theirs.magnitude, rel=1e-12)
    elif code == "a":  # 365.25 days in UCUM
        assert ours.factor == pytest.approx(theirs.magnitude, rel=3e-5)
    else:
        assert ours.factor == pytest.approx(theirs.magnitude, rel=1e-9)
