"""Each mistake a writer of checklists can make is told with its file, line and field, once, and with a way out."""

# One mistake per line reads best.

from pathlib import Path

import pytest

from baycard.checklists.load import read_book
from tests.unit.checklists.small_folder import FILES, problems_of, write_folder

FILE = "checklists/wheels.yaml"
NUMBER = "answer: {kind: number, unit: mm, decimals: 2, range: [0, 20], instruments: [dial]}"
TAKE = "dial: {check: movement, take: value}"
ONLY_IF = 'only_if: {check: rock, is: ["yes"]}'

MISTAKES = {
    "unknown key": ("version: 1", "version: 1\ncolour: red", "colour", "key is not known here"),
    "missing key": ("why: To find play.\n", "", "", "why is missing"),
    "empty text": ("why: To find play.", "why: ''", "why", "must be text, not empty"),
    "text where a number stands": ("above: 0.1", "above: wide", "checks[1].limits[0].above", "must be a number"),
    "version below one": ("version: 1", "version: 0", "version", "version must be 1 or more"),
    "id unlike the file": ("id: wheels", "id: wheel", "id", "is not the name of the file"),
    "id no slot can hold": ("id: rock\n", "id: Rock!\n", "checks[0].id", "cannot be part of a slot"),
    "duplicate check": ("- id: movement", "- id: rock", "checks[1].id", "id rock is already used in line 10"),
    "no check": (FILES[FILE][FILES[FILE].index("checks:") :], "checks: []\n", "checks", "checklist has no checks"),
    "unknown caution": ("cautions: [lift]", "cautions: [lfit]", "cautions[0]", "caution lfit is not known"),
    "unknown station": (
        "[left, right]\nchecks",
        "[left, right, rigth]\nchecks",
        "stations[2]",
        "station rigth is not known",
    ),
    "unknown place": (
        "at: [wheel-left, wheel-right]",
        "at: [wheel-lef]",
        "checks[0].at[0]",
        "place wheel-lef is not known",
    ),
    "place off the walk": (
        "at: [wheel-left, wheel-right]",
        "at: [wheel-left, roof]",
        "checks[0].at[1]",
        "station roof, where this checklist does not go",
    ),
    "place twice": (
        "at: [wheel-left, wheel-right]",
        "at: [wheel-left, wheel-left]",
        "checks[0].at[1]",
        "written twice",
    ),
    "no place": ("at: [wheel-left, wheel-right]", "at: []", "checks[0].at", "check has no place"),
    "unknown kind of answer": ("kind: choice", "kind: choise", "checks[0].answer.kind", "must be one of choice"),
    "beyond without a grade": ("grade: major, ", "", "checks[0].answer.options[1]", "grade is missing"),
    "beyond without a title": ("title: Play, ", "", "checks[0].answer.options[1]", "title is missing"),
    "grade without beyond": (
        "means: in-order}",
        "means: in-order, grade: minor}",
        "checks[0].answer.options[0].grade",
        "has a grade but does not mean beyond",
    ),
    "unknown grade": ("grade: major, ", "grade: bad, ", "checks[0].answer.options[1].grade", "must be one of advice"),
    "option twice": ('{id: "yes"', '{id: "no"', "checks[0].answer.options[1].id", "option no is written twice"),
    "unknown unit": ("number, unit: mm", "number, unit: mmm", "checks[1].answer.unit", "'mmm' is not known"),
    "range reversed": ("range: [0, 20]", "range: [20, 0]", "checks[1].answer.range", "range runs from 20 to 0"),
    "range of three": ("range: [0, 20]", "range: [0, 1, 20]", "checks[1].answer.range", "must be 2 values, not 3"),
    "too many decimals": ("decimals: 2, range", "decimals: 9, range", "checks[1].answer.decimals", "from 0 to 6"),
    "unknown instrument": (
        "instruments: [dial]",
        "instruments: [dail]",
        "checks[1].answer.instruments[0]",
        "dail is not known",
    ),
    "instrument of another kind": (
        "instruments: [dial]",
        "instruments: [gauge]",
        "checks[1].answer.instruments[0]",
        "unit kPa does not fit the answer, which is in mm",
    ),
    "limit without a source": ("        source: common practice\n", "", "checks[1].limits[0]", "source is missing"),
    "limit without a basis": ("        basis: common practice\n", "", "checks[1].limits[0]", "basis is missing"),
    "limit with an unknown basis": (
        "basis: common practice",
        "basis: hearsay",
        "checks[1].limits[0].basis",
        "must be one of",
    ),
    "limit in another unit": (
        "above: 0.1\n        unit: mm",
        "above: 0.1\n        unit: kPa",
        "checks[1].limits[0].unit",
        "unit kPa does not fit the answer",
    ),
    "limit without a number": ("        above: 0.1\n", "", "checks[1].limits[0]", "limit has no number"),
    "limit crossed by everything": (
        "above: 0.1",
        "above: 0.1\n        below: 0.2",
        "checks[1].limits[0]",
        "crossed by every reading",
    ),
    "limit with number and maker": (
        "above: 0.1",
        "above: 0.1\n        maker: {key: play, ask: Play?, is: above}",
        "checks[1].limits[0]",
        "also asks for the maker's figure",
    ),
    "limit of many on one reading": ("of: value", "of: max", "checks[1].limits[0].of", "max needs several readings"),
    "limit on a choice": (
        "  - id: movement",
        "    limits:\n      - {id: a, of: value, above: 1, unit: mm, grade: minor, title: T, plain: P., source: S,"
        " basis: published, applies: All.}\n  - id: movement",
        "checks[0].limits[0]",
        "a choice answer has no number",
    ),
    "condition on a missing check": (
        ONLY_IF,
        "only_if: {check: rok, is: [yes]}",
        "checks[1].only_if.check",
        "rok is not in",
    ),
    "condition on a later check": (
        ONLY_IF,
        "only_if: {check: angle, is: [yes]}",
        "checks[1].only_if.check",
        "comes later",
    ),
    "condition on no choice": (
        "    answer:\n      kind: worked-out",
        "    only_if: {check: movement, is: [yes]}\n    answer:\n      kind: worked-out",
        "checks[2].only_if.check",
        "movement is not a choice",
    ),
    "condition on an unknown option": (
        ONLY_IF,
        "only_if: {check: rock, is: [yse]}",
        "checks[1].only_if.is[0]",
        "option yse",
    ),
    "unknown method": (
        "method: rock-angle",
        "method: rok-angle",
        "checks[2].answer.method",
        "method rok-angle is not known",
    ),
    "worked out in another unit": (
        "unit: deg",
        "unit: mm",
        "checks[2].answer.unit",
        "does not fit the method rock-angle",
    ),
    "input without a source": (
        f"      inputs:\n        {TAKE}",
        "      inputs: {}",
        "checks[2].answer.inputs",
        "has no source",
    ),
    "input the method lacks": (
        TAKE,
        "dail: {value: 1, unit: mm}",
        "checks[2].answer.inputs.dail",
        "input dail is not known",
    ),
    "source is a missing check": (
        TAKE,
        "dial: {check: moved, take: value}",
        "checks[2].answer.inputs.dial.check",
        "moved is not in",
    ),
    "source has no such reading": (
        TAKE,
        "dial: {check: movement, take: last}",
        "checks[2].answer.inputs.dial.take",
        "last cannot be taken from the number answer",
    ),
    "source at a place it is not": (
        TAKE,
        "dial: {check: movement, take: value, at: roof}",
        "checks[2].answer.inputs.dial.at",
        "movement is not asked at roof",
    ),
    "source of another kind": (
        TAKE,
        "dial: {value: 3, unit: kPa}",
        "checks[2].answer.inputs.dial.unit",
        "unit kPa does not fit the method's input",
    ),
    "source of no kind": (TAKE, "dial: {from: movement}", "checks[2].answer.inputs.dial", "must have one of the keys"),
    "source is itself": (TAKE, "dial: {check: angle, take: value}", "checks[2].answer.inputs", "needs its own answer"),
    "fact that is none": (TAKE, "dial: {fact: weather}", "checks[2].answer.inputs.dial.fact", "not a slot of a fact"),
    "fact nobody is asked for": (
        TAKE,
        "dial: {fact: vehicle/odometr}",
        "checks[2].answer.inputs.dial.fact",
        "vehicle/odometr is not asked for",
    ),
    "maker's figure no slot can hold": (
        "above: 0.1",
        "maker: {key: Rim Play, ask: Play?, is: above}",
        "checks[1].limits[0].maker.key",
        "Rim Play cannot be part of a slot",
    ),
    "maker's input no slot can hold": (
        TAKE,
        "dial: {maker: rim/play, ask: Play?, unit: mm}",
        "checks[2].answer.inputs.dial.maker",
        "rim/play cannot be part of a slot",
    ),
    "maker's figure of two kinds": (
        "        dial: {check: movement, take: value}\n",
        "        dial: {maker: play, ask: Play?, unit: mm}\n        radius: {maker: play, ask: Play?, unit: kPa}\n",
        "checks[2].answer.inputs.radius.unit",
        "unit kPa does not fit the maker's figure play elsewhere, which is in mm",
    ),
    "limit above every answer": (
        "above: 0.1",
        "above: 100",
        "checks[1].limits[0].above",
        "100 mm can never be reached",
    ),
    "limit below every answer": (
        "above: 0.1",
        "below: -1",
        "checks[1].limits[0].below",
        "-1 mm can never be reached",
    ),
    "side difference wider than the answers": (
        "of: value\n        above: 0.1",
        "of: side-difference\n        above: 21",
        "checks[1].limits[0].above",
        "21 mm can never be reached",
    ),
    "key twice": ("version: 1", "version: 1\nversion: 2", "version", "key is written twice"),
}

WAYS_OUT = {
    "a tab": ("why: To find", "\twhy: To find", "spaces"),
    "a list not closed": ("tools: [dial]", "tools: [dial", "brackets"),
    "a colon in a text": ("why: To find play.", "why: To find: play.", "quotes"),
    "a comma in a number": ("above: 0.1", "above: 0,1", "with a dot, as in 1.6"),
    "a number in quotes": ("above: 0.1", 'above: "0.1"', "without quotes"),
    "a missing text": ("    ask: How far?\n", "", "write `ask:`"),
    "a version in words": ("version: 1", "version: one", "such as 1"),
}


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_told_with_its_field_and_line(name: str, tmp_path: Path) -> None:
    old, new, field, says = MISTAKES[name]
    found = [one for one in problems_of(tmp_path, (FILE, old, new)) if one.field == field and says in one.says]
    assert len(found) == 1, "\n".join(map(str, problems_of(tmp_path, (FILE, old, new))))
    assert found[0].file == FILE
    assert 1 <= found[0].line <= len(FILES[FILE].splitlines()) + 3


@pytest.mark.parametrize("name", WAYS_OUT)
def test_a_slip_of_the_pen_is_told_with_a_way_out(name: str, tmp_path: Path) -> None:
    old, new, way_out = WAYS_OUT[name]
    assert way_out in "\n".join(one.suggestion for one in problems_of(tmp_path, (FILE, old, new)))


@pytest.mark.parametrize("content", [b"", b"- a\n", b"\xff\xfe", b"just words\n"])
def test_a_file_that_is_no_checklist_is_told_what_one_is(content: bytes, tmp_path: Path) -> None:
    (write_folder(tmp_path) / FILE).write_bytes(content)
    _, problems = read_book(tmp_path)
    assert [one.file for one in problems] == [FILE]
    assert problems[0].suggestion


def test_the_small_folder_has_no_mistake(tmp_path: Path) -> None:
    assert problems_of(tmp_path) == []


def test_a_line_is_the_line_in_the_file(tmp_path: Path) -> None:
    (problem,) = problems_of(tmp_path, (FILE, "above: 0.1", "above: wide"))
    lines = (tmp_path / FILE).read_text().splitlines()
    assert "above: wide" in lines[problem.line - 1]
    assert str(problem).startswith(f"{FILE}:{problem.line}: checks[1].limits[0].above: must be a number")


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    changes = [
        (FILE, "above: 0.1", "above: wide"),
        (FILE, "grade: major, ", ""),
        ("methods/play.yaml", "dial / radius", "dail"),
    ]
    assert len({(one.file, one.field) for one in problems_of(tmp_path, *changes)}) >= 3


def test_a_broken_check_is_not_told_again_where_it_is_named(tmp_path: Path) -> None:
    (problem,) = problems_of(tmp_path, (FILE, "ask: Does it rock?", "ask: 7"))
    assert problem.field == "checks[0].ask"


def test_a_limit_of_the_side_difference_needs_both_sides(tmp_path: Path) -> None:
    only_left = ("We measured it.\n    at: [wheel-left, wheel-right]", "We measured it.\n    at: [wheel-left]")
    found = problems_of(tmp_path, (FILE, *only_left), (FILE, "of: value", "of: side-difference"))
    assert "side-difference needs a place and its pair" in "\n".join(map(str, found))


def test_a_mistyped_name_gets_the_nearest_known_one(tmp_path: Path) -> None:
    (problem,) = problems_of(tmp_path, (FILE, "instruments: [dial]", "instruments: [dail]"))
    assert problem.suggestion == "did you mean dial?"
