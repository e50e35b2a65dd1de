"""A formula tree back to ordinary arithmetic, for people."""

from collections.abc import Sequence

from baycard.checklists.types import Tree

SIGNS = {"add": "+", "sub": "-", "mul": "*", "div": "/", "pow": "**"}
COMPARISONS = {"lt": "<", "le": "<=", "gt": ">", "ge": ">=", "eq": "==", "ne": "!="}
STRENGTH = {
    "if": 0,
    "or": 1,
    "and": 2,
    "not": 3,
    **dict.fromkeys(COMPARISONS, 4),
    "add": 5,
    "sub": 5,
    "mul": 6,
    "div": 6,
}
STRENGTH |= {"neg": 7, "pow": 8}
STRONGEST = 9


def formula_lines(tree: Tree) -> list[str]:
    """The formula, with one line `name = ...` for each intermediate result before the last line."""
    lines = []
    while tree[0] == "let":
        lines.append(f"{tree[1]} = {formula_text(tree[2])}")
        tree = tree[3]
    return [*lines, formula_text(tree)]


def formula_text(tree: Tree) -> str:
    """The formula on one line, with no more brackets than it needs."""
    kind, parts = tree[0], tree[1:]
    if kind in SIGNS:
        return _binary(tree, SIGNS[kind])
    if kind in COMPARISONS:
        return _binary(tree, COMPARISONS[kind])
    if kind in ("and", "or"):
        return _binary(tree, kind)
    if kind in ("neg", "not"):
        return ("-" if kind == "neg" else "not ") + _inside(parts[0], STRENGTH[kind])
    if kind == "if":
        return f"{_inside(parts[1], 1)} if {_inside(parts[0], 1)} else {_inside(parts[2], 0)}"
    return _small(kind, parts)


def _small(kind: str, parts: Sequence[Tree]) -> str:
    if kind == "num":
        return f"{parts[0]:.15g}"
    if kind == "in":
        return str(parts[0])
    if kind == "list":
        return f"[{', '.join(formula_text(part) for part in parts)}]"
    name, arguments = str(parts[0]), parts[1:]
    return "pi" if name == "pi" else f"{name}({', '.join(formula_text(part) for part in arguments)})"


def _binary(tree: Tree, sign: str) -> str:
    """Left to right, but a power is written right to left."""
    kind, left, right = tree
    strength = STRENGTH[kind]
    return f"{_inside(left, strength + (kind == 'pow'))} {sign} {_inside(right, strength + (kind != 'pow'))}"


def _inside(tree: Tree, strength: int) -> str:
    text = formula_text(tree)
    own = STRENGTH.get(tree[0], STRONGEST)
    if tree[0] == "num" and text.startswith("-"):
        own = STRENGTH["neg"]
    return f"({text})" if own < strength else text
