"""The vectors from which the phone's evaluator is tested are those of the book of today, and hold on the server too."""

import json
from typing import Any

import pytest

from baycard.checklists.from_json import record_from_json
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Method
from baycard.measure.methods import Quantity, work
from baycard.measure.units import Units
from tests.reference.book_vectors import FILE, text

DATA: dict[str, Any] = json.loads(FILE.read_text("utf-8"))
WORDS = {"says": "", "source": "", "basis": "", "validity": "", "cautions": [], "examples": []}
BOOK = load_book(seed_folder())


def test_the_vectors_are_up_to_date() -> None:
    assert FILE.read_text("utf-8") == text(BOOK), "write them again: python -m tests.reference.book_vectors"


@pytest.mark.parametrize("case", DATA["cases"], ids=lambda case: f"{case['method']}-{case['id']}")
def test_the_server_gives_the_expected_answer(case: dict[str, Any]) -> None:
    method = record_from_json(Method, {**WORDS, **DATA["methods"][case["method"]]})
    given = {name: Quantity(amount["value"], amount["unit"]) for name, amount in case["inputs"].items()}
    value = work(method, given, Units(BOOK.units)).value
    if isinstance(case["expected"], bool | str | list | dict):
        assert value == case["expected"]
    else:
        assert value == pytest.approx(case["expected"], rel=case["rtol"] or 1e-15, abs=case.get("atol", 1e-12))
