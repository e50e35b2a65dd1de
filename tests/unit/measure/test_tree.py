"""The evaluator keeps its bounds, whatever it is given."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycard.measure.errors import ERROR_CODES, MeasureError
from baycard.measure.tree import DEEPEST, LONGEST_LIST, MOST_NODES, STEPS, evaluate


def code_of(tree: Any, inputs: Any = None) -> str | None:
    try:
        evaluate(tree, inputs or {})
    except MeasureError as error:
        return error.code
    return None


def nested(depth: int) -> list[Any]:
    tree: list[Any] = ["num", 1]
    for _ in range(depth - 1):
        tree = ["neg", tree]
    return tree


def test_a_formula_as_deep_as_allowed_is_worked_out_and_a_deeper_one_refused() -> None:
    assert code_of(nested(DEEPEST)) is None
    assert code_of(nested(DEEPEST + 1)) == "too-large"
    assert code_of(nested(100_000)) == "too-large"


def test_a_formula_as_long_as_allowed_is_worked_out_and_a_longer_one_refused() -> None:
    numbers = [["num", 1]] * (MOST_NODES - 2)
    assert evaluate(["call", "sum", ["list", *numbers]], {}) == MOST_NODES - 2
    assert code_of(["call", "sum", ["list", *numbers, ["num", 1]]]) == "too-large"


def test_a_list_longer_than_allowed_is_refused() -> None:
    assert evaluate(["call", "count", ["in", "xs"]], {"xs": [0.0] * LONGEST_LIST}) == LONGEST_LIST
    assert code_of(["in", "xs"], {"xs": [0.0] * (LONGEST_LIST + 1)}) == "too-large"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 10**400])
def test_a_number_that_cannot_be_counted_is_not_a_number(value: float) -> None:
    assert code_of(["in", "x"], {"x": value}) == "not-a-number"
    assert code_of(["num", value]) == "not-a-number"


anything = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=4) | st.sampled_from(sorted(STEPS)),
    lambda inner: st.lists(inner, max_size=4),
    max_leaves=12,
)


@given(st.lists(anything, max_size=4))
def test_any_rubbish_gives_a_value_or_a_known_code(tree: list[Any]) -> None:
    code = code_of(tree, {"x": 1.0})
    assert code is None or code in ERROR_CODES
