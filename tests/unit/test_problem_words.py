"""The desk says of a problem what the server says of it."""

import json
from pathlib import Path

import pytest

from baycard.web.problems import PROBLEMS

DESK = Path(__file__).parents[2] / "frontend" / "src" / "words" / "en" / "desk.json"
TOLD = {
    key.removeprefix("desk.problem-"): words
    for key, words in json.loads(DESK.read_text(encoding="utf-8")).items()
    if key.startswith("desk.problem-")
}


@pytest.mark.parametrize("code", sorted(TOLD.keys() & PROBLEMS.keys()))
def test_the_desk_says_in_english_what_the_server_says(code: str) -> None:
    assert TOLD[code] == f"{PROBLEMS[code].title} {PROBLEMS[code].do}"


def test_every_problem_of_the_desk_and_its_reports_is_told_at_the_desk() -> None:
    codes = ["card-changed", "unsettled", "photos-missing", "empty-card", "no-report", "no-mail", "bad-address"]
    codes += ["mail-failed", "mail-underway", *(code for code in PROBLEMS if code.startswith("rescue-"))]
    assert [code for code in codes if code not in TOLD] == []
