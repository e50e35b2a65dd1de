"""methods/*.yaml to methods: formulas become trees, inputs, units and worked examples are held together."""

from collections.abc import Iterator, Mapping, Sequence

from baycard.checklists.formula import FormulaError, parse_formula, used_names
from baycard.checklists.from_json import record_from_json
from baycard.checklists.known import Known, check_range
from baycard.checklists.problems import Spot
from baycard.checklists.rows import list_at, read_rows, written_id
from baycard.checklists.types import Amount, Method, Tree, WorkedExample
from baycard.checklists.yaml_records import ExampleRow, MethodRow
from baycard.measure.methods import output_unit, units_wanted

KEPT = ("id", "inputs", "expected", "rtol", "atol", "source", "basis")
Examples = Mapping[str, list[tuple[Spot, WorkedExample]]]


def read_methods(tops: list[Spot], examples: Examples, known: Known) -> None:
    """Puts every sound method of the files into `known.methods`; the rest is reported."""
    for top in tops:
        ids = {written_id(item) for _, item in list_at(top, "methods")}
        sound = set()
        for spot, row in read_rows(MethodRow, top, "methods"):
            method = _method(record_from_json(MethodRow, row), spot, examples, known)
            if method.id in known.methods:
                spot.down("id").report(f"id {method.id} is already used by a method in another file", "choose another")
            known.methods.setdefault(method.id, method)
            sound.add(method.id)
        known.broken.update(("method", id) for id in ids - sound if id)


def read_examples(top: Spot) -> Iterator[tuple[str, Spot, WorkedExample]]:
    """The worked examples of a file, each with the id of its method."""
    for spot, row in read_rows(ExampleRow, top, "examples"):
        example = record_from_json(ExampleRow, row)
        yield example.method, spot, record_from_json(WorkedExample, {key: row[key] for key in row if key in KEPT})


def _method(row: MethodRow, spot: Spot, examples: Examples, known: Known) -> Method:
    for name, given in row.inputs.items():
        known.check_unit(given.unit, spot.down("inputs", name, "unit"))
        check_range(given.range, spot.down("inputs", name, "range"))
    known.check_unit(row.output.unit, spot.down("output", "unit"))
    own = [(spot.down("examples", number), example) for number, example in enumerate(row.examples)]
    every = [*own, *examples.get(row.id, [])]
    method = Method(
        id=row.id,
        says=row.says,
        inputs=row.inputs,
        output=row.output,
        tree=_tree(row, spot),
        function=_function(row, spot, known),
        source=row.source,
        basis=row.basis,
        validity=row.validity,
        cautions=row.cautions,
        examples=tuple(example for _, example in every),
    )
    for example_spot, example in every:
        _check_example(method, example, example_spot, known)
    return method


def _function(row: MethodRow, spot: Spot, known: Known) -> str | None:
    if (row.formula is None) == (row.function is None):
        spot.report("method needs either a formula or a function", "write exactly one of them")
    if row.function is not None:
        known.check_name("function", row.function, known.functions, spot.down("function"))
    return row.function


def _tree(row: MethodRow, spot: Spot) -> Tree | None:
    """The formula, inside the `let`s of its intermediate results."""
    if row.formula is None:
        return None
    names = list(row.inputs)
    tables = {name: ["list", *(["num", value] for value in values)] for name, values in (row.tables or {}).items()}
    steps: list[tuple[str, Tree]] = []
    for name, text in (row.where or {}).items():
        if name in names or name in tables:
            spot.down("where", name).report(f"{name} is already the name of an input, a table or an earlier result")
        steps.append((name, _parse(text, names, tables, spot.down("where", name))))
        names.append(name)
    tree = _parse(row.formula, names, tables, spot.down("formula"))
    _report_unused(row, tree, steps, spot)
    for name, value in reversed(steps):
        tree = ["let", name, value, tree]
    return tree


def _parse(text: object, names: list[str], tables: Mapping[str, Tree], spot: Spot) -> Tree:
    """The tree, or zero after a report."""
    try:
        return parse_formula(str(text), names, tables)
    except FormulaError as error:
        spot.report(error.says, error.suggestion)
        return ["num", 0, "broken"]


def _report_unused(row: MethodRow, tree: Tree, steps: Sequence[tuple[str, Tree]], spot: Spot) -> None:
    """Inputs and intermediate results that the formula does not need, in a method whose formulas are all sound."""
    if _broken(tree) or any(_broken(value) for _, value in steps):
        return
    used = used_names(tree)
    for name, value in reversed(steps):
        if name in used:
            used |= used_names(value)
        else:
            spot.down("where", name).report(f"{name} is worked out but not used")
    for name in sorted(set(row.inputs) - used):
        if not row.inputs[name].text:
            spot.down("inputs", name).report(f"input {name} is asked for but the formula does not use it")


def _broken(tree: Tree) -> bool:
    return tree[-1] == "broken" or any(_broken(part) for part in tree if isinstance(part, list))


def _check_example(method: Method, example: WorkedExample, spot: Spot, known: Known) -> None:
    wanted = units_wanted(method, {name: amount.unit for name, amount in example.inputs.items()})
    for name, amount in example.inputs.items():
        at = spot.down("inputs", name)
        if known.check_name("input", name, method.inputs, at) and not method.inputs[name].text:
            known.check_same_quantity(amount.unit, wanted[name], f"the input {name}", at)
    for name, given in method.inputs.items():
        if given.default is None and name not in example.inputs:
            spot.down("inputs").report(f"input {name} has no value in the example")
    _check_expected(example.expected, output_unit(method, wanted), spot.down("expected"), known)


def _check_expected(expected: Amount, unit: str, spot: Spot, known: Known) -> None:
    """Text answers and answers in the unit that a text input names have no unit to compare."""
    if isinstance(expected.value, int | float) and not unit.startswith("{"):
        known.check_same_quantity(expected.unit, unit, "the output of the method", spot)
