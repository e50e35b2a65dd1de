"""What independent libraries give is what the examples of the book say."""

import json
from typing import Any

import pytest

from tests.reference.independent_examples import FILE, examples

WRITTEN = {row["id"]: row for row in json.loads(FILE.read_text("utf-8"))}
COMPUTED = examples()


def test_the_file_holds_every_independent_example() -> None:
    says = "write it again: python -m tests.reference.independent_examples"
    assert [row["id"] for row in COMPUTED] == list(WRITTEN), says


@pytest.mark.parametrize("row", COMPUTED, ids=lambda row: str(row["id"]))
def test_the_library_still_gives_the_answer(row: dict[str, Any]) -> None:
    written = WRITTEN[row["id"]]
    value, kept = row["expected"]["value"], written["expected"]["value"]
    if isinstance(value, float):
        assert kept == pytest.approx(value, rel=1e-7, abs=1e-12)
    else:
        assert kept == value
    assert {**written, "expected": None} == {**row, "expected": None}
    assert written["expected"]["unit"] == row["expected"]["unit"]
