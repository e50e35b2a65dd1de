"""The commands, as a person or a script meets them."""

import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

from baycard.checklists.formula import parse_formula
from baycard.checklists.formula_text import formula_text
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.show import WIDTH, show_checklist
from baycard.checklists.work_file import MOST_ITEMS
from baycard.cli import main
from tests.unit.checklists.small_folder import write_folder

FILE = "checklists/wheels.yaml"
TYRE = {
    "width": {"value": 205, "unit": "mm"},
    "aspect": {"value": 55, "unit": "%"},
    "rim": {"value": 16, "unit": "[in_i]"},
}


def test_check_says_that_all_is_in_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_folder(tmp_path)
    assert main(["checklist", "check", str(folder / FILE)]) == 0
    assert capsys.readouterr().out == "in order: 1 checklists, 1 methods\n"


def test_check_prints_one_line_for_each_mistake(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_folder(tmp_path, (FILE, "instruments: [dial]", "instruments: [dail]"))
    assert main(["checklist", "check", str(folder / FILE)]) == 1
    expected = f"{FILE}:25: checks[1].answer.instruments[0]: instrument dail is not known (did you mean dial?)\n"
    assert capsys.readouterr().out == expected


def test_show_prints_the_walk_with_samples_on_both_sides_of_a_limit(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["checklist", "show", str(write_folder(tmp_path) / FILE)]) == 0
    out = capsys.readouterr().out
    assert out.index("== Left side") < out.index("[rock: Left wheel]") < out.index("== Right side")
    assert "checks as at Left side" in out[out.index("== Right side") :]
    assert "DANGER: Lift. Look up." in out
    assert "only if rock is yes" in out
    for sample in ("0.08064 ± 0.013 mm: in order", "0.1 ± 0.013 mm: too close to call", "0.1194 ± 0.013 mm: beyond"):
        assert sample in out


def test_show_of_every_seed_checklist_keeps_to_the_width() -> None:
    book = load_book(seed_folder())
    for checklist in book.checklists:
        assert max(map(len, show_checklist(checklist, book).splitlines())) <= WIDTH


def test_show_writes_units_as_people_do(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["checklist", "show", "brakes"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "below 140 °C" in out and "the maker's figure, in °C" in out
    assert " Cel" not in out


def test_show_names_what_there_is_when_asked_for_what_there_is_not(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["checklist", "show", "no-such"]) == 2
    assert "bearing-play" in capsys.readouterr().err


def run_work(
    items: object, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> tuple[int, list[object]]:
    monkeypatch.setattr("sys.stdin", io.StringIO(items if isinstance(items, str) else json.dumps(items)))
    code = main(["work", "-"])
    return code, [json.loads(line) for line in capsys.readouterr().out.splitlines()]


def test_work_answers_each_item_and_echoes_its_id(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    item = {"id": "x", "method": "tyre-outer-diameter", "inputs": TYRE, "expected": {"value": 1}, "source": "ignored"}
    code, (answer,) = run_work([item], capsys, monkeypatch)
    assert code == 0
    assert answer == {
        "id": "x",
        "method": "tyre-outer-diameter",
        "value": pytest.approx(631.9),
        "unit": "mm",
        "u": None,
    }


def test_work_carries_uncertainty(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    inputs = {"drop": {"value": 0.2, "unit": "V", "u": 0.01}, "current": {"value": 100, "unit": "A"}}
    _, (answer,) = run_work([{"method": "joint-power-loss", "inputs": inputs}], capsys, monkeypatch)
    assert answer == {"method": "joint-power-loss", "value": 20.0, "unit": "W", "u": pytest.approx(1.0)}


BAD_ITEMS = [
    ({"method": "no-such"}, "unknown-method"),
    ({"inputs": {}}, "unknown-method"),
    (7, "unknown-method"),
    ({"method": "tyre-outer-diameter"}, "missing-input"),
    ({"method": "tyre-outer-diameter", "inputs": []}, "missing-input"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "colour": {"value": 1}}}, "missing-input"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": 16}}, "not-a-number"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": "x", "unit": "mm"}}}, "not-a-number"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 16, "unit": "kPa"}}}, "wrong-unit"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 16, "unit": "zoll"}}}, "unknown-unit"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 16, "unit": 3}}}, "unknown-unit"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 900, "unit": "m"}}}, "out-of-range"),
]


@pytest.mark.parametrize(("item", "code"), BAD_ITEMS)
def test_work_gives_an_error_in_place_of_an_answer_and_goes_on(
    item: object, code: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    good = {"method": "tyre-outer-diameter", "inputs": TYRE}
    exit_code, answers = run_work([item, good], capsys, monkeypatch)
    assert exit_code == 1
    first, second = answers
    assert isinstance(first, dict) and first["error"]["code"] == code and first["error"]["detail"]
    assert isinstance(second, dict) and "error" not in second


NEAR_MISSES = [
    ({"method": "tyre-outer-diametre"}, "did you mean tyre-outer-diameter?"),
    ({"method": "tyre-outer-diameter", "inputs": {"widht": {"value": 1}}}, "did you mean width?"),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 16, "unit": "kPa"}}}, "rim: "),
    ({"method": "tyre-outer-diameter", "inputs": {**TYRE, "rim": {"value": 16, "unit": "zoll"}}}, "rim: "),
]


@pytest.mark.parametrize(("item", "names"), NEAR_MISSES)
def test_work_names_the_input_that_is_wrong_and_what_may_have_been_meant(
    item: object, names: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    _, (answer,) = run_work([item], capsys, monkeypatch)
    assert isinstance(answer, dict) and names in answer["error"]["detail"]


def test_work_says_how_many_items_it_takes_at_once(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("[" + "1," * MOST_ITEMS + "1]"))
    assert main(["work", "-"]) == 2
    assert "100,000" in capsys.readouterr().err


def test_work_reads_a_file_that_begins_with_a_byte_order_mark(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    text = json.dumps([{"method": "tyre-outer-diameter", "inputs": TYRE}])
    (tmp_path / "items.json").write_text(text, "utf-8-sig")
    assert main(["work", str(tmp_path / "items.json")]) == 0
    capsys.readouterr()
    assert run_work("\ufeff" + text, capsys, monkeypatch)[0] == 0


def test_work_goes_on_after_text_that_no_encoding_can_hold(tmp_path: Path) -> None:
    (tmp_path / "items.json").write_text('[{"id": "\\ud800", "method": "\\ud800"}, {"id": 2, "method": "x"}]')
    done = subprocess.run(
        [sys.executable, "-m", "baycard", "work", str(tmp_path / "items.json")], capture_output=True, check=False
    )
    assert [json.loads(line)["id"] for line in done.stdout.splitlines()] == ["\ud800", 2]


def test_work_ends_quietly_when_nobody_reads_on(tmp_path: Path) -> None:
    (tmp_path / "items.json").write_text(json.dumps([{"method": "x"}] * 5000))
    with subprocess.Popen(
        [sys.executable, "-m", "baycard", "work", str(tmp_path / "items.json")],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as running:
        assert running.stdout is not None and running.stderr is not None
        running.stdout.readline()
        running.stdout.close()
        assert running.stderr.read() == b""


@pytest.mark.parametrize("text", ["", "{", "{}", "[" * 100_000, '"x"'])
def test_work_refuses_a_file_that_is_no_list(
    text: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run_work(text, capsys, monkeypatch) == (2, [])


@pytest.mark.parametrize(
    "text",
    [
        "a - (b - c)",
        "a / (b * c)",
        "(a + b) * c",
        "-a ** 2",
        "(-a) ** 2",
        "a ** (b + c)",
        "1 if a > b and not b < c else a",
        "(a if b > 1 else c) + 2",
        "max(a, b, 3) - sqrt(c) * pi",
        "sum([a, b, 2.5])",
        "(a > 1 or b > 1) and c > 1",
        "a * -3",
    ],
)
def test_a_formula_written_for_people_means_the_same(text: str) -> None:
    tree = parse_formula(text, ["a", "b", "c"])
    assert parse_formula(formula_text(tree), ["a", "b", "c"]) == tree
