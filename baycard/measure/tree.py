"""Formula trees: the one small evaluator for the arithmetic of the methods (docs/formats.md, "Formula tree").

Numbers combine with numbers, and element by element with lists. The same steps in the same order as on the phone.
"""

import math
import operator
from collections.abc import Callable, Mapping, Sequence

from baycard.measure.arithmetic import CALLS, Value, as_number, finite, number, over, power
from baycard.measure.book import Tree
from baycard.measure.errors import MeasureError

DEEPEST = 200
MOST_NODES = 5_000
LONGEST_LIST = 20_000

Inputs = Mapping[str, float | Sequence[float]]
Names = dict[str, Value]


def _divide(a: float, b: float) -> float:
    if b == 0:
        raise MeasureError("outside-domain", "the formula divides by nothing")
    return finite(a / b)


BINARY: Mapping[str, Callable[[float, float], float]] = {
    "add": lambda a, b: finite(a + b),
    "sub": lambda a, b: finite(a - b),
    "mul": lambda a, b: finite(a * b),
    "div": _divide,
    "pow": power,
}
COMPARE: Mapping[str, Callable[[float, float], bool]] = {
    "lt": operator.lt,
    "le": operator.le,
    "gt": operator.gt,
    "ge": operator.ge,
    "eq": operator.eq,
    "ne": operator.ne,
}


def evaluate(tree: Tree, inputs: Inputs) -> Value:
    """What a formula gives: a number, a list of numbers, or a yes or no.

    inputs: name -> number or list of numbers, already in the units the formula expects.
    Raises MeasureError `missing-input`, `not-a-number`, `outside-domain`, `too-large`, `unknown-method`.
    """
    _bound(tree)
    return _value(tree, {name: _input(name, value) for name, value in inputs.items()})


def _bound(tree: Tree) -> None:
    """Refuses what is too deep or too large before any of it is worked out."""
    waiting: list[tuple[Tree, int]] = [(tree, 1)]
    seen = 0
    while waiting:
        node, depth = waiting.pop()
        seen += 1
        if depth > DEEPEST or seen > MOST_NODES:
            raise MeasureError("too-large", "the formula is too deep or too long")
        waiting.extend((part, depth + 1) for part in node if isinstance(part, list | tuple))


def _input(name: str, value: object) -> Value:
    if not isinstance(value, list | tuple):
        return number(value, name)
    if len(value) > LONGEST_LIST:
        raise MeasureError("too-large", f"{name} has more than {LONGEST_LIST} values")
    return [number(item, name) for item in value]


def _value(node: object, names: Names) -> Value:
    if not isinstance(node, list | tuple) or not node:
        raise MeasureError("unknown-method", "the formula has something that is not a step")
    kind, parts = node[0], node[1:]
    step = STEPS.get(kind) if isinstance(kind, str) else None
    if step is None or not step[0] <= len(parts) <= step[1]:
        raise MeasureError("unknown-method", f"the formula has a step {kind} that is not known or has wrong parts")
    return step[2](kind, parts, names)


def _num(_: str, parts: Sequence[object], __: Names) -> Value:
    return number(parts[0], "the formula")


def _in(_: str, parts: Sequence[object], names: Names) -> Value:
    name = _name(parts[0])
    if name not in names:
        raise MeasureError("missing-input", f"{name} is needed")
    return names[name]


def _list(_: str, parts: Sequence[object], names: Names) -> Value:
    return [as_number(_value(part, names)) for part in parts]


def _neg(_: str, parts: Sequence[object], names: Names) -> Value:
    return over(operator.neg, _value(parts[0], names))


def _binary(kind: str, parts: Sequence[object], names: Names) -> Value:
    return _pairwise(BINARY[kind], _value(parts[0], names), _value(parts[1], names))


def _compare(kind: str, parts: Sequence[object], names: Names) -> Value:
    return COMPARE[kind](as_number(_value(parts[0], names)), as_number(_value(parts[1], names)))


def _logic(kind: str, parts: Sequence[object], names: Names) -> Value:
    left = _truth(_value(parts[0], names))
    return left if left == (kind == "or") else _truth(_value(parts[1], names))


def _not(_: str, parts: Sequence[object], names: Names) -> Value:
    return not _truth(_value(parts[0], names))


def _if(_: str, parts: Sequence[object], names: Names) -> Value:
    return _value(parts[1] if _truth(_value(parts[0], names)) else parts[2], names)


def _let(_: str, parts: Sequence[object], names: Names) -> Value:
    return _value(parts[2], {**names, _name(parts[0]): _value(parts[1], names)})


def _call(_: str, parts: Sequence[object], names: Names) -> Value:
    name = _name(parts[0])
    call = CALLS.get(name)
    if call is None or not call[0] <= len(parts) - 1 <= call[1]:
        raise MeasureError("unknown-method", f"the function {name} is not known or has the wrong number of arguments")
    return call[2](*(_value(part, names) for part in parts[1:]))


def _name(word: object) -> str:
    if not isinstance(word, str):
        raise MeasureError("unknown-method", "the formula has a name that is not text")
    return word


def _truth(value: Value) -> bool:
    if not isinstance(value, bool):
        raise MeasureError("not-a-number", "the formula asks yes or no of something else")
    return value


def _pairwise(work: Callable[[float, float], float], a: Value, b: Value) -> Value:
    if isinstance(a, list) and isinstance(b, list):
        if len(a) != len(b):
            raise MeasureError("outside-domain", "two lists of different length cannot be combined")
        return [work(x, y) for x, y in zip(a, b, strict=True)]
    if isinstance(a, list):
        y = as_number(b)
        return [work(x, y) for x in a]
    x = as_number(a)
    return over(lambda y: work(x, y), b)


Step = Callable[[str, Sequence[object], Names], Value]
STEPS: Mapping[str, tuple[int, float, Step]] = {
    "num": (1, 1, _num),
    "in": (1, 1, _in),
    "list": (0, math.inf, _list),
    "neg": (1, 1, _neg),
    **dict.fromkeys(BINARY, (2, 2, _binary)),
    **dict.fromkeys(COMPARE, (2, 2, _compare)),
    "and": (2, 2, _logic),
    "or": (2, 2, _logic),
    "not": (1, 1, _not),
    "if": (3, 3, _if),
    "let": (3, 3, _let),
    "call": (1, math.inf, _call),
}
"""Each step of a formula: least and most parts, and the work."""
