"""Formulas: what is allowed becomes a tree, what is not is refused quickly and in words."""

import ast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycard.checklists.formula import FUNCTIONS, FormulaError, parse_formula, used_names
from baycard.measure.arithmetic import CALLS
from tests.support.hostile_formulas import HOSTILE

INPUTS = ("p1", "p2", "t", "lambda")


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("p1 - p2 / 2", ["sub", ["in", "p1"], ["div", ["in", "p2"], ["num", 2]]]),
        ("-p1 ** 2", ["neg", ["pow", ["in", "p1"], ["num", 2]]]),
        ("-3", ["num", -3]),
        ("sqrt(p1)", ["call", "sqrt", ["in", "p1"]]),
        ("pow(p1, 2)", ["pow", ["in", "p1"], ["num", 2]]),
        ("2 * pi", ["mul", ["num", 2], ["call", "pi"]]),
        ("1 if p1 > 0 else 2", ["if", ["gt", ["in", "p1"], ["num", 0]], ["num", 1], ["num", 2]]),
        ("0 < p1 < 5", ["and", ["lt", ["num", 0], ["in", "p1"]], ["lt", ["in", "p1"], ["num", 5]]]),
        ("not (p1 > 1 or p2 > 1 or t > 1)", None),
        ("max(p1, p2, 3)", ["call", "max", ["in", "p1"], ["in", "p2"], ["num", 3]]),
        ("sum([p1, 2])", ["call", "sum", ["list", ["in", "p1"], ["num", 2]]]),
        ("lambda_ * 2", ["mul", ["in", "lambda"], ["num", 2]]),
        ("p1\n  + p2", ["add", ["in", "p1"], ["in", "p2"]]),
    ],
)
def test_ordinary_arithmetic_becomes_a_tree(text: str, tree: list[object] | None) -> None:
    parsed = parse_formula(text, INPUTS)
    assert tree is None or parsed == tree


def test_a_table_of_constants_stands_where_it_is_named() -> None:
    tables = {"xs": ["list", ["num", 0], ["num", 1]], "ys": ["list", ["num", 5], ["num", 6]]}
    assert parse_formula("interp(t, xs, ys)", INPUTS, tables) == ["call", "interp", ["in", "t"], *tables.values()]


def test_a_mistyped_input_is_named_and_the_nearest_one_suggested() -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula("presure * 2", ["pressure"])
    assert caught.value.says == "formula names the input presure which the method does not have"
    assert caught.value.suggestion == "did you mean pressure?"


def test_a_mistyped_function_is_named_and_the_nearest_one_suggested() -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula("sqr(p1)", INPUTS)
    assert (caught.value.says, caught.value.suggestion) == (
        "formula calls the unknown function sqr",
        "did you mean sqrt?",
    )


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_a_hostile_formula_is_refused_in_words(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula(text, INPUTS)
    assert caught.value.says


@pytest.mark.parametrize("text", ["p1" * 100_000, "(" * 1999, "[" * 31 + "]" * 31])
def test_long_and_deep_formulas_never_reach_the_parser(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def must_not_run(*_: object, **__: object) -> ast.Expression:
        raise AssertionError("the parser was reached")

    monkeypatch.setattr(ast, "parse", must_not_run)
    with pytest.raises(FormulaError):
        parse_formula(text, INPUTS)


PARTS = [
    "p1",
    "p2",
    "t",
    "1",
    "2.5",
    "1e3",
    "+",
    "-",
    "*",
    "/",
    "**",
    "(",
    ")",
    "[",
    "]",
    ",",
    " if ",
    " else ",
    " and ",
]
PARTS += [
    " not ",
    "<",
    "==",
    ".",
    "'",
    ":=",
    "lambda ",
    " for ",
    "{",
    "}",
    "\n",
    "\\",
    "#",
    *(f"{name}(" for name in FUNCTIONS),
]


@given(st.one_of(st.text(max_size=200), st.lists(st.sampled_from(PARTS), max_size=60).map("".join)))
def test_any_text_gives_a_tree_in_known_inputs_or_a_fault(text: str) -> None:
    try:
        tree = parse_formula(text, INPUTS)
    except FormulaError as fault:
        assert fault.says
    else:
        assert used_names(tree) <= set(INPUTS)


def test_every_function_a_formula_may_call_is_known_to_the_evaluator() -> None:
    for name, (least, most) in FUNCTIONS.items():
        known_least, known_most, _ = CALLS[name]
        assert known_least <= least <= most <= known_most, name
    assert set(CALLS) == set(FUNCTIONS)
