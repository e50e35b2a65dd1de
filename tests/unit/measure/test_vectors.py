"""The vectors that both languages share."""

from typing import Any

import pytest

from baycard.measure import uncertainty
from baycard.measure.errors import ERROR_CODES, MeasureError
from baycard.measure.functions import FUNCTIONS
from baycard.measure.methods import Quantity, work
from baycard.measure.tree import evaluate
from baycard.measure.verdict import Bounds, settle, verdict
from tests.unit.measure.gauges import Asked, Gauge, Given, Recipe
from tests.unit.measure.tables import units, vectors


def agrees(got: object, expected: object, rtol: float) -> bool:
    if isinstance(expected, dict):
        return (
            isinstance(got, dict)
            and got.keys() == expected.keys()
            and all(agrees(got[k], expected[k], rtol) for k in got)
        )
    if isinstance(expected, list):
        return (
            isinstance(got, list) and len(got) == len(expected) and all(map(agrees, got, expected, [rtol] * len(got)))
        )
    if isinstance(expected, bool) or not isinstance(expected, int | float):
        return got == expected and type(got) is type(expected)
    if isinstance(got, bool) or not isinstance(got, int | float):
        return False
    return abs(got - expected) <= rtol * max(abs(expected), 1e-3 if rtol else 0)


def work_units(case: dict[str, Any]) -> object:
    if case["do"] == "compatible":
        return units().compatible(case["from"], case["to"])
    work = units().convert if case["do"] == "convert" else units().convert_difference
    return work(case["value"], case["from"], case["to"])


def work_tree(case: dict[str, Any]) -> object:
    return evaluate(case["tree"], case["inputs"])


def work_uncertainty(case: dict[str, Any]) -> object:
    skip = ("do", "expected", "code", "rtol", "source")
    arguments = [value for name, value in case.items() if name not in skip]
    return getattr(uncertainty, case["do"])(*(Gauge(**one) if isinstance(one, dict) else one for one in arguments))


def work_verdict(case: dict[str, Any]) -> object:
    bounds = Bounds(**case["bounds"])
    if case["do"] == "verdict":
        return verdict(case["value"], case["u"], bounds, case["k"])
    others = {id: Gauge(**one) for id, one in case["others"].items()}
    found = settle(case["values"], Gauge(**case["instrument"]), bounds, others, case["k"])
    return {"repeats": found.repeats, "instruments": list(found.instruments)}


def work_codes(case: dict[str, Any]) -> object:
    plain = {name: float(value) if isinstance(value, int | float) else value for name, value in case["inputs"].items()}
    return FUNCTIONS[case["function"]].work(plain, units())


def work_methods(case: dict[str, Any]) -> object:
    asked = {name: Asked(**one) for name, one in case["method"]["inputs"].items()}
    method = Recipe(**{**case["method"], "inputs": asked, "output": Given(case["method"]["output"]["unit"])})
    found = work(method, {name: Quantity(**one) for name, one in case["inputs"].items()}, units())
    return {"value": found.value, "unit": found.unit, "u": found.u}


WORK = {
    "units": work_units,
    "tree": work_tree,
    "uncertainty": work_uncertainty,
    "verdict": work_verdict,
    "codes": work_codes,
    "methods": work_methods,
}
CASES = [(name, case) for name in WORK for case in vectors(name)]


@pytest.mark.parametrize(("name", "case"), [one for one in CASES if "code" not in one[1]])
def test_every_vector_gives_the_value_worked_out_by_hand(name: str, case: dict[str, Any]) -> None:
    got = WORK[name](case)
    assert agrees(got, case["expected"], case.get("rtol", 0)), f"{case} gave {got}"


@pytest.mark.parametrize(("name", "case"), [one for one in CASES if "code" in one[1]])
def test_every_impossible_vector_is_refused_with_its_code(name: str, case: dict[str, Any]) -> None:
    with pytest.raises(MeasureError) as refused:
        WORK[name](case)
    assert refused.value.code == case["code"]
    assert refused.value.detail


def test_the_vectors_use_the_closed_set_of_codes_only() -> None:
    assert {case["code"] for _, case in CASES if "code" in case} <= set(ERROR_CODES)
