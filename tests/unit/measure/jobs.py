"""Random work for both languages, from a seed."""

import random
from collections.abc import Sequence
from typing import Any

from baycard.measure.functions import FUNCTIONS
from baycard.measure.tree import BINARY, COMPARE, STEPS
from tests.unit.measure.tables import examples, unit_table

INPUTS = {"a": 3.25, "b": -0.75, "c": 0.0, "xs": [1.5, 2.5, 4.0], "ys": [0.25, -3.0, 8.0]}
LISTS = ("sum", "mean", "count", "first", "last", "min", "max")
SMOOTH = ("sqrt", "ln", "log10", "exp", "sin", "cos", "tan", "asin", "acos", "atan")
Tree = list[Any]


def number(dice: random.Random) -> Any:
    """Whole numbers, halves, and numbers of every size."""
    return dice.choice(
        [
            dice.randint(-3, 12),
            dice.randint(-20, 20) / 2,
            dice.uniform(-10, 10),
            dice.uniform(-1, 1) * 10 ** dice.randint(-200, 200),
        ]
    )


def arithmetic(dice: random.Random, depth: int) -> Tree:
    """A formula whose every step rounds in one way only, so that both languages must agree to the last digit."""
    if depth == 0:
        return dice.choice([["num", number(dice)], ["in", dice.choice("abc")]])
    return step(dice, depth - 1)


def step(dice: random.Random, depth: int) -> Tree:
    """One step over formulas that are at most so deep."""
    kind = dice.randrange(8)
    if kind < 3:
        return [dice.choice([name for name in BINARY if name != "pow"]), *parts(dice, depth, 2)]
    if kind == 3:
        return ["call", dice.choice(["abs", "round", "floor", "sqrt"]), *parts(dice, depth, 1)]
    if kind == 4:
        return ["if", condition(dice, depth), *parts(dice, depth, 2)]
    if kind == 5:
        return ["let", "a", *parts(dice, depth, 2)]
    if kind == 6:
        return ["call", dice.choice(LISTS), listing(dice, depth)]
    table = ["list", *(["num", x] for x in (-5, 0, 4, 40))]
    return ["call", "interp", *parts(dice, depth, 1), table, ["list", *parts(dice, depth, 4)]]


def parts(dice: random.Random, depth: int, count: int) -> list[Tree]:
    """So many formulas, some of them short."""
    return [arithmetic(dice, depth if dice.random() < 0.7 else 0) for _ in range(count)]


def listing(dice: random.Random, depth: int) -> Tree:
    """A formula that gives a list."""
    if dice.random() < 0.3:
        return ["in", dice.choice(["xs", "ys"])]
    if dice.random() < 0.3:
        return [dice.choice(["add", "mul", "div"]), ["in", "xs"], dice.choice([["in", "ys"], arithmetic(dice, depth)])]
    return ["list", *(arithmetic(dice, depth) for _ in range(dice.randint(0, 4)))]


def condition(dice: random.Random, depth: int) -> Tree:
    """A formula that gives yes or no."""
    kind = dice.randrange(4)
    if kind == 0 and depth:
        return [dice.choice(["and", "or"]), condition(dice, depth - 1), condition(dice, depth - 1)]
    if kind == 1 and depth:
        return ["not", condition(dice, depth - 1)]
    return [dice.choice(list(COMPARE)), arithmetic(dice, depth), arithmetic(dice, 0)]


def smooth(dice: random.Random) -> Tree:
    """A product or quotient of functions, each of a plain number: nothing that would blow a last digit up."""
    terms: list[Tree] = [["call", dice.choice(SMOOTH), leaf(dice)] for _ in range(2)]
    terms.append(["pow", leaf(dice), ["num", dice.choice([2, 3, -1, 0.5, 1.4, dice.uniform(-8, 8)])]])
    dice.shuffle(terms)
    return [dice.choice(["mul", "div"]), [dice.choice(["mul", "div"]), terms[0], terms[1]], terms[2]]


def leaf(dice: random.Random) -> Tree:
    """A number that is often within the domain of an arc sine."""
    return ["num", dice.choice([dice.uniform(-1.2, 1.2), dice.uniform(-50, 50), dice.uniform(0, 1e6)])]


def rubbish(dice: random.Random, depth: int) -> Any:
    """Something that is hardly ever a formula."""
    if depth == 0 or dice.random() < 0.2:
        return dice.choice([None, True, "a", "xs", 1, 0.5, [], ["num", 1], ["in", "a"], ["in", "xs"], ["in", "q"]])
    head = dice.choice([*STEPS, "call", "call", "mod", 1, None])
    rest = [rubbish(dice, depth - 1) for _ in range(dice.randint(0, 3))]
    return (
        [head, dice.choice([*LISTS, *SMOOTH, "slope", "pi", "eval", "pow"]), *rest] if head == "call" else [head, *rest]
    )


def unit_code(dice: random.Random) -> str:
    """Atoms with prefixes, exponents and signs, now and then with a slip."""
    table = unit_table()
    words = []
    for _ in range(dice.randint(1, 3)):
        prefix = dice.choice(["", "", "k", "m", "u", "da", "M"])
        power = dice.choice(["", "", "2", "3", "-1", "+2", "0", "13"])
        words.append(prefix + dice.choice(list(table["atoms"])) + power + dice.choice(["", "", "{fuel}"]))
    code = dice.choice(["", "", "/", "100."]) + dice.choice("./").join(words)
    return code if dice.random() < 0.8 else slipped(dice, code)


def slipped(dice: random.Random, text: str) -> str:
    """The text with one character lost, doubled or replaced."""
    place = dice.randrange(len(text)) if text else 0
    return text[:place] + dice.choice(["", text[place : place + 1] * 2, dice.choice("xX0.9/ -(I)")]) + text[place + 1 :]


TRICKY = (
    *("", "   ", "constructor", "__proto__", "İ", "ﬀ/2", "２0", "0/5", "3/0", "7/32 in", "1 1 1/2", "MIN TH 22,4 MM"),
    *("min.th=9", " min ", "MIN TH 22.4 mm.", "dot-5.1", "205/55R16 91V", "LT235/75R15 104/101S", "0100", "5300"),
    *("2026-02-30", "2026-2-3", "0000-01-01", "0001-01-01", "9999-12-31", "2026-11-20T10:00Z"),
)
"""Words that a reader of text may trip over: empty, names of the language, other alphabets, dates that are none."""


def tricky_jobs(dice: random.Random) -> list[dict[str, Any]]:
    """Every function that reads text alone, with each tricky word and slips of it."""
    made = []
    for name, function in FUNCTIONS.items():
        if set(function.inputs.values()) <= {"{text}", "{hex}"}:
            for word in TRICKY:
                made += [_of_words(name, [word, slipped(dice, word), dice.choice(TRICKY)]) for _ in range(3)]
    return made


def _of_words(function: str, words: Sequence[str]) -> dict[str, Any]:
    inputs = dict(zip(FUNCTIONS[function].inputs, words, strict=False))
    return {"do": "function", "function": function, "inputs": inputs}


def function_job(dice: random.Random) -> dict[str, Any]:
    """A worked example with its inputs a little changed."""
    example = dice.choice([one for one in examples() if one["method"] in FUNCTIONS])
    inputs = {name: changed(dice, one["value"]) for name, one in example["inputs"].items()}
    if dice.random() < 0.05:
        inputs.pop(dice.choice(list(inputs)))
    return {"do": "function", "function": example["method"], "inputs": inputs}


def changed(dice: random.Random, value: Any) -> Any:
    """The value itself, or one near it of the same kind; numbers stay floating-point numbers."""
    if isinstance(value, str):
        return value if dice.random() < 0.4 else slipped(dice, value)
    if isinstance(value, Sequence):
        return [changed(dice, item) for item in value]
    return float(dice.choice([value, value, value + 1, value - 1, value * dice.uniform(0.5, 1.5), -value, 0]))


def verdict_job(dice: random.Random) -> dict[str, Any]:
    """Readings with a gauge and bounds nearby."""
    values = [round(dice.uniform(0, 5), 2) for _ in range(dice.randint(1, 5))]
    gauge = {"resolution": dice.choice([0.01, 0.1, 0.5, 1]), "limit_of_error": dice.choice([None, 0.05, 0.2])}
    bounds = {side: round(dice.uniform(0, 5), 1) for side in ("above", "below") if dice.random() < 0.7}
    others = {"fine": {"resolution": 0.001}, "coarse": {"resolution": 2}}
    if dice.random() < 0.5:
        return {"do": "settle", "values": values, "gauge": gauge, "bounds": bounds, "others": others}
    return {"do": "verdict", "value": values[0], "u": dice.choice([0, 0.1, 0.25, 1]), "bounds": bounds, "k": 2}
