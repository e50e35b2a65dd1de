"""Mistakes in methods, units, instruments and places, and files that are no YAML at all."""

# One mistake per line reads best.
from pathlib import Path

import pytest

from baycard.checklists.load import read_book
from tests.unit.checklists.small_folder import problems_of, write_folder

METHODS = "methods/play.yaml"
PLACES = "places.yaml"

MISTAKES = [
    (
        METHODS,
        "dial / radius",
        "dail / radius",
        "[0].where.ratio",
        "names the input dail which the method does not have",
    ),
    (METHODS, "atan(ratio)", "atn(ratio)", "[0].formula", "calls the unknown function atn"),
    (METHODS, "atan(ratio)", "ratio.real", "[0].formula", "may not use a dot"),
    (METHODS, "ratio: dial / radius", "dial: dial / radius", "[0].where.dial", "already the name of an input"),
    (METHODS, "atan(ratio) * 180 / pi", "dial", "[0].inputs.radius", "does not use it"),
    (METHODS, "atan(ratio) * 180 / pi", "dial + radius", "[0].where.ratio", "is worked out but not used"),
    (METHODS, "  formula: atan(ratio) * 180 / pi\n", "", "[0]", "needs either a formula or a function"),
    (
        METHODS,
        "  formula: atan(ratio) * 180 / pi\n",
        "  function: no-such\n",
        "[0].function",
        "function no-such is not known",
    ),
    (METHODS, "range: [0, 20]", "range: [20, 0]", "[0].inputs.dial.range", "range runs from 20 to 0"),
    (METHODS, "dial: {unit: mm", "dial: {unit: inchworm", "[0].inputs.dial.unit", "'inchworm' is not known"),
    (METHODS, "output: {unit: deg", "output: {unit: degs", "[0].output.unit", "'degs' is not known"),
    (METHODS, "{dial: {value", "{dail: {value", "[0].examples[0].inputs.dail", "input dail is not known"),
    (
        METHODS,
        "{value: 2, unit: mm}",
        "{value: 2, unit: kPa}",
        "[0].examples[0].inputs.dial",
        "does not fit the input dial",
    ),
    (METHODS, "unit: deg}\n      rtol", "unit: mm}\n      rtol", "[0].examples[0].expected", "does not fit the output"),
    (
        METHODS,
        "inputs: {dial: {value: 2, unit: mm}}",
        "inputs: {}",
        "[0].examples[0].inputs",
        "input dial has no value",
    ),
    (METHODS, "  source: right triangle\n", "", "[0]", "source is missing"),
    ("instruments.yaml", "unit: kPa", "unit: kPaa", "instruments[1].unit", "'kPaa' is not known"),
    ("instruments.yaml", "id: gauge", "id: dial", "instruments[1].id", "id dial is already used in line 2"),
    ("cautions.yaml", "level: danger", "level: red", "cautions[0].level", "must be one of danger"),
    (PLACES, "station: roof", "station: rof", "places[2].station", "station rof is not known"),
    (PLACES, "pair: wheel-right", "pair: wheel-rigth", "places[0].pair", "place wheel-rigth is not known"),
    (PLACES, "side: right, pair: wheel-left", "side: right", "places[0].pair", "does not name wheel-left as its pair"),
    ("units.yaml", 'factor: "1/1000"', "factor: a-few", "prefixes[0].factor", "is not a number or a fraction"),
    ("units.yaml", "dim: {s: 1}", "dim: {second: 1}", "atoms[1].dim.second", "dimension second is not known"),
    ("cautions.yaml", "cautions:", "warnings:", "", "cautions is missing"),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake[3] or "file")
def test_a_mistake_is_told_once_with_its_field(mistake: tuple[str, str, str, str, str], tmp_path: Path) -> None:
    file, old, new, field, says = mistake
    problems = problems_of(tmp_path, (file, old, new))
    found = [one for one in problems if one.file == file and one.field == field and says in one.says]
    assert len(found) == 1, "\n".join(map(str, problems))


def test_a_text_cut_by_a_comma_is_recognised(tmp_path: Path) -> None:
    (problem,) = problems_of(tmp_path, (METHODS, "says: reading at the rim", "says: reading at the rim, in play"))
    assert problem.suggestion == "a text with a comma in it must be in quotes"


def test_a_method_in_two_files_is_told(tmp_path: Path) -> None:
    write_folder(tmp_path)
    (tmp_path / "methods" / "second.yaml").write_text((tmp_path / METHODS).read_text())
    found = [str(one) for one in problems_of(tmp_path)]
    assert found == [
        "methods/second.yaml:1: [0].id: id rock-angle is already used by a method in another file (choose another)"
    ]


HOSTILE = {
    "a bomb of aliases": "a: &a [x, x, x, x, x, x, x, x, x]\n"
    + "\n".join(f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]" for a, b in zip("abcdefgh", "bcdefghi", strict=True)),
    "a list in itself": "&a [*a]",
    "a tag of one's own": "!!python/object/apply:os.system ['true']",
    "another tag": "id: !secret x",
    "endless nesting": "[" * 20_000,
    "deep nesting": "[" * 60 + "]" * 60,
    "no YAML": "id: [1, 2",
    "a control character": "id: \x00",
    "a number too large": "id: wheels\nversion: 1e999",
    "two documents": "id: a\n---\nid: b\n",
    "nothing": "",
    "a word": "hello",
    "a list": "- a",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_a_problem_of_that_file_only(name: str, tmp_path: Path) -> None:
    write_folder(tmp_path)
    (tmp_path / "checklists" / "wheels.yaml").write_text(HOSTILE[name])
    book, problems = read_book(tmp_path)
    assert problems
    assert {one.file for one in problems} == {"checklists/wheels.yaml"}
    assert list(book.methods) == ["rock-angle"]


def test_a_file_that_is_not_text_is_a_problem(tmp_path: Path) -> None:
    write_folder(tmp_path)
    (tmp_path / "checklists" / "wheels.yaml").write_bytes(b"\xff\xfe\x00")
    _, (problem,) = read_book(tmp_path)
    assert problem.says == "file is not UTF-8 text"


def test_a_folder_without_files_says_which_are_missing(tmp_path: Path) -> None:
    _, problems = read_book(tmp_path / "nowhere")
    assert {one.file for one in problems} >= {"units.yaml", "places.yaml", "cautions.yaml", "instruments.yaml"}
    assert all("cannot be read" in one.says for one in problems)
