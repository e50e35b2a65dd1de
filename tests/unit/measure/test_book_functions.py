"""The methods of the shop that name a function declare what that function needs."""

from typing import Any

import pytest
import yaml

from baycard.measure.functions import FUNCTIONS
from tests.unit.measure.tables import ROOT

FILES = sorted((ROOT / "seed_checklists" / "methods").glob("*.yaml"))
METHODS = [one for file in FILES for one in yaml.safe_load(file.read_text())["methods"] if "function" in one]


@pytest.mark.parametrize("method", METHODS, ids=lambda method: str(method["id"]))
def test_a_method_declares_the_inputs_and_units_of_its_function(method: dict[str, Any]) -> None:
    needs = FUNCTIONS[method["function"]]
    declared = {name: one["unit"] for name, one in method["inputs"].items()}
    assert declared.keys() == needs.inputs.keys()
    for name, unit in declared.items():
        assert unit == needs.inputs[name] or (unit == "{any}" and needs.inputs[name] == "1")
    assert method["output"]["unit"] == needs.output or method["output"]["unit"] == "{any}"


def test_every_function_is_a_method_of_the_shop() -> None:
    assert set(FUNCTIONS) == {method["function"] for method in METHODS}
