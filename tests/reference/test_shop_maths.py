"""Every published or independently computed example: the method of that name gives that answer within its tolerance."""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from baycard.checklists.work_file import work_items
from baycard.cli import main
from baycard.measure.units import Units

ROOT = Path(__file__).parents[2]
LEFT_OUT = ROOT / "docs" / "methods-left-out.md"


@cache
def book() -> Book:
    return load_book(seed_folder())


@cache
def examples() -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = json.loads((seed_folder() / "examples" / "shop-maths.json").read_text("utf-8"))
    return rows


def left_out() -> set[str]:
    return set(re.findall(r"^\| `([a-z0-9-]+)` \| \S", LEFT_OUT.read_text("utf-8"), re.MULTILINE))


def known_examples() -> list[dict[str, Any]]:
    return [row for row in examples() if row["method"] in book().methods]


def test_every_method_is_in_the_book_or_left_out_with_a_reason() -> None:
    named = {row["method"] for row in examples()}
    assert named - set(book().methods) - left_out() == set()
    assert left_out() & set(book().methods) == set()


def test_no_example_is_lost_between_the_book_and_the_list() -> None:
    assert len(examples()) == 593
    assert len(known_examples()) + sum(row["method"] in left_out() for row in examples()) == len(examples())


@pytest.mark.parametrize("row", known_examples(), ids=lambda row: f"{row['id']}-{row['method']}")
def test_the_method_gives_the_answer_of_the_example(row: dict[str, Any]) -> None:
    (answer,) = work_items([row], book())
    assert "error" not in answer, answer
    expected = row["expected"]
    if isinstance(expected["value"], bool | str | list | dict):
        assert answer["value"] == expected["value"]
        return
    value = answer["value"]
    if not answer["unit"].startswith("{"):
        value = Units(book().units).convert(value, answer["unit"], expected["unit"])
    assert value == pytest.approx(expected["value"], rel=row["rtol"], abs=row.get("atol", 1e-12))


def test_the_command_works_the_whole_file_and_refuses_only_what_is_left_out(capsys: pytest.CaptureFixture[str]) -> None:
    main(["work", str(seed_folder() / "examples" / "shop-maths.json")])
    answers = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [answer["id"] for answer in answers] == [row["id"] for row in examples()]
    refused = {answer["method"]: answer["error"]["code"] for answer in answers if "error" in answer}
    assert refused == dict.fromkeys(left_out(), "unknown-method")
