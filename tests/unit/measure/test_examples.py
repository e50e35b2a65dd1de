"""Worked examples with their sources, for every method that is a function."""

from collections.abc import Mapping
from typing import Any

import pytest

from baycard.measure.errors import MeasureError
from baycard.measure.functions import FUNCTIONS, Function
from baycard.measure.given import Given
from tests.unit.measure.tables import examples, units

CASES = [example for example in examples() if example["method"] in FUNCTIONS]


def given_of(function: Function, inputs: Mapping[str, Any]) -> Given:
    return {name: in_its_unit(function.inputs[name], one["value"], one["unit"]) for name, one in inputs.items()}


def in_its_unit(unit: str, value: Any, written: str) -> Any:
    """The value in the function's unit; a function in plain numbers takes any one unit as it is."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return float(value) if unit == "1" else units().convert(value, written, unit)


@pytest.mark.parametrize("example", CASES, ids=lambda example: str(example["id"]))
def test_every_worked_example_comes_out_as_published(example: dict[str, Any]) -> None:
    function = FUNCTIONS[example["method"]]
    got = function.work(given_of(function, example["inputs"]), units())
    expected = example["expected"]["value"]
    if isinstance(expected, bool) or not isinstance(expected, int | float):
        assert got == expected
    else:
        expected = in_its_unit(
            function.output if function.output[0] != "{" else "1", expected, example["expected"]["unit"]
        )
        assert got == pytest.approx(expected, rel=example["rtol"] or 1e-15, abs=example.get("atol", 0))


def test_every_function_has_a_worked_example() -> None:
    assert set(FUNCTIONS) == {example["method"] for example in CASES}


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_every_unit_a_function_names_is_known(name: str) -> None:
    function = FUNCTIONS[name]
    for unit in (*function.inputs.values(), function.output):
        assert units().read(unit)


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_every_function_says_which_input_is_missing(name: str) -> None:
    with pytest.raises(MeasureError) as refused:
        FUNCTIONS[name].work({}, units())
    assert refused.value.code == "missing-input"
    assert refused.value.detail.split()[0] in FUNCTIONS[name].inputs
