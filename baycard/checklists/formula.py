"""Ordinary arithmetic, written as text, to the formula tree of docs/formats.md. Nothing is ever run from the text.

The text is bounded before it is parsed, and the parsed nodes are bounded and white-listed before they are translated.
"""

import ast
import difflib
import keyword
import math
import warnings
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baycard.checklists.types import Tree

LONGEST_TEXT = 2_000
DEEPEST_BRACKETS = 30
DEEPEST_NODES = 60
MOST_NODES = 600
LARGEST_NUMBER = 1e30
LARGEST_EXPONENT = 32

FUNCTIONS: Mapping[str, tuple[int, int]] = {
    **dict.fromkeys(("sqrt", "ln", "log10", "exp", "sin", "cos", "tan", "asin", "acos", "atan"), (1, 1)),
    **dict.fromkeys(("abs", "round", "floor", "sum", "mean", "count", "first", "last"), (1, 1)),
    **dict.fromkeys(("min", "max"), (1, 20)),
    **dict.fromkeys(("pow", "slope"), (2, 2)),
    "interp": (3, 3),
    "pi": (0, 0),
}
"""The functions a formula may call, with the least and most arguments."""

BINARY = {ast.Add: "add", ast.Sub: "sub", ast.Mult: "mul", ast.Div: "div", ast.Pow: "pow"}
COMPARE = {ast.Lt: "lt", ast.LtE: "le", ast.Gt: "gt", ast.GtE: "ge", ast.Eq: "eq", ast.NotEq: "ne"}
LOGIC = {ast.And: "and", ast.Or: "or"}
PLAIN_NAMES = (ast.Load, ast.Store, ast.expr_context, ast.operator, ast.unaryop, ast.cmpop, ast.boolop)


class FormulaError(ValueError):
    """The formula cannot be used; `says` tells what is wrong and `suggestion` what to do instead, or is empty."""

    def __init__(self, says: str, suggestion: str = "") -> None:
        super().__init__(says)
        self.says = says
        self.suggestion = suggestion


@dataclass(frozen=True, slots=True)
class Names:
    """What a formula may name: inputs and earlier intermediate results, and the method's constant lists."""

    inputs: Collection[str]
    tables: Mapping[str, Tree]


def parse_formula(text: str, inputs: Collection[str], tables: Mapping[str, Tree] | None = None) -> Tree:
    """The tree of a formula in the given inputs and constant tables. Raises FormulaError for anything not allowed.

    An input whose name is a Python word is written with an underscore behind it (`lambda_`).
    """
    _bound_text(text)
    node = _parse(text)
    _bound_nodes(node)
    return _tree(node, Names(inputs, tables or {}))


def _bound_text(text: str) -> None:
    if len(text) > LONGEST_TEXT:
        raise FormulaError(f"formula is longer than {LONGEST_TEXT} characters", "split it with `where`")
    depth = 0
    for character in text:
        depth += (character in "([{") - (character in ")]}")
        if depth > DEEPEST_BRACKETS:
            raise FormulaError(f"formula nests more than {DEEPEST_BRACKETS} brackets", "split it with `where`")


def _parse(text: str) -> ast.expr:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return ast.parse(" ".join(text.split()), mode="eval").body
    except SyntaxError as error:
        raise FormulaError(f"formula is not ordinary arithmetic: {error.msg}") from None
    except (ValueError, RecursionError, MemoryError):
        raise FormulaError("formula is not ordinary arithmetic") from None


def _bound_nodes(root: ast.expr) -> None:
    """Walks without recursion, so that the recursion of the translation is known to be shallow."""
    waiting: list[tuple[ast.AST, int]] = [(root, 1)]
    seen = 0
    while waiting:
        node, depth = waiting.pop()
        seen += 1
        if depth > DEEPEST_NODES or seen > MOST_NODES:
            raise FormulaError("formula is too deeply nested or too large", "split it with `where`")
        waiting += [(child, depth + 1) for child in ast.iter_child_nodes(node) if not isinstance(child, PLAIN_NAMES)]


def _tree(node: ast.expr, names: Names) -> Tree:
    translate = TRANSLATIONS.get(type(node))
    if translate is None:
        raise FormulaError(f"formula may not use {_said(node)}", "use + - * / **, comparisons, if-else and functions")
    return translate(node, names)


def _said(node: ast.expr) -> str:
    words = {ast.Attribute: "a dot", ast.Subscript: "square brackets behind a name", ast.JoinedStr: "text"}
    return words.get(type(node), f"a {type(node).__name__}")


def _number(value: object) -> float | int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise FormulaError(f"formula may hold numbers only, not {type(value).__name__}")
    if abs(value) > LARGEST_NUMBER or not math.isfinite(value):
        raise FormulaError(f"formula has a number beyond {LARGEST_NUMBER:g}")
    return value


def _name(name: str, names: Names) -> Tree:
    plain = name.removesuffix("_") if keyword.iskeyword(name.removesuffix("_")) else name
    if plain in names.inputs:
        return ["in", plain]
    if plain in names.tables:
        return names.tables[plain]
    if plain == "pi":
        return ["call", "pi"]
    near = difflib.get_close_matches(plain, [*names.inputs, *names.tables], n=1)
    has = ", ".join(sorted(names.inputs)) or "none"
    suggestion = f"did you mean {near[0]}?" if near else f"the method has the inputs {has}"
    raise FormulaError(f"formula names the input {plain} which the method does not have", suggestion)


def _unary(node: ast.UnaryOp, names: Names) -> Tree:
    inner = _tree(node.operand, names)
    match node.op:
        case ast.USub():
            return ["num", -inner[1]] if inner[0] == "num" else ["neg", inner]
        case ast.UAdd():
            return inner
        case ast.Not():
            return ["not", inner]
    raise FormulaError("formula may not use ~", "use - or not")


def _binary(node: ast.BinOp, names: Names) -> Tree:
    word = BINARY.get(type(node.op))
    if word is None:
        raise FormulaError(f"formula may not use the operator {type(node.op).__name__}", "use + - * / **")
    left, right = _tree(node.left, names), _tree(node.right, names)
    if word == "pow":
        _bound_exponent(right)
    return [word, left, right]


def _bound_exponent(exponent: Tree) -> None:
    if exponent[0] == "num" and abs(exponent[1]) > LARGEST_EXPONENT:
        raise FormulaError(f"formula has an exponent beyond {LARGEST_EXPONENT}")
    if exponent[0] == "pow":
        raise FormulaError("formula has a power of a power", "work the exponent out first, under `where`")


def _compare(node: ast.Compare, names: Names) -> Tree:
    return _chain("and", list(_comparisons(node, names)))


def _comparisons(node: ast.Compare, names: Names) -> Iterator[Tree]:
    left = _tree(node.left, names)
    for operator, right_node in zip(node.ops, node.comparators, strict=True):
        word = COMPARE.get(type(operator))
        if word is None:
            raise FormulaError(f"formula may not compare with {type(operator).__name__}", "use < <= > >= == !=")
        right = _tree(right_node, names)
        yield [word, left, right]
        left = right


def _chain(word: str, parts: list[Tree]) -> Tree:
    tree = parts[0]
    for part in parts[1:]:
        tree = [word, tree, part]
    return tree


def _call(node: ast.Call, names: Names) -> Tree:
    if not isinstance(node.func, ast.Name) or node.keywords:
        raise FormulaError("formula may only call functions by their plain names", f"use {', '.join(FUNCTIONS)}")
    name = node.func.id
    if name not in FUNCTIONS:
        near = difflib.get_close_matches(name, FUNCTIONS, n=1)
        suggestion = f"did you mean {near[0]}?" if near else f"the functions are {', '.join(FUNCTIONS)}"
        raise FormulaError(f"formula calls the unknown function {name}", suggestion)
    least, most = FUNCTIONS[name]
    if not least <= len(node.args) <= most:
        needs = str(least) if least == most else f"{least} to {most}"
        raise FormulaError(f"{name} takes {needs} values, not {len(node.args)}")
    arguments = [_tree(argument, names) for argument in node.args]
    if name == "pow":
        _bound_exponent(arguments[1])
        return ["pow", *arguments]
    return ["call", name, *arguments]


TRANSLATIONS: Mapping[type[ast.expr], Callable[[Any, Names], Tree]] = {
    ast.Constant: lambda node, _: ["num", _number(node.value)],
    ast.Name: lambda node, names: _name(node.id, names),
    ast.UnaryOp: _unary,
    ast.BinOp: _binary,
    ast.Compare: _compare,
    ast.BoolOp: lambda node, names: _chain(LOGIC[type(node.op)], [_tree(value, names) for value in node.values]),
    ast.IfExp: lambda node, names: ["if", *(_tree(part, names) for part in (node.test, node.body, node.orelse))],
    ast.List: lambda node, names: ["list", *(_tree(item, names) for item in node.elts)],
    ast.Call: _call,
}


def used_names(tree: Tree) -> set[str]:
    """The inputs and intermediate results that a tree reads."""
    if tree[0] == "in":
        return {tree[1]}
    return set().union(*(used_names(part) for part in tree[1:] if isinstance(part, list)))
