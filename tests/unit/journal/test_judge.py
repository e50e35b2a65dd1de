"""The judge takes what is well formed and says plainly why it refuses the rest, the same on phone and server."""

import copy
from typing import Any, get_args

import pytest

from baycard.journal.entry import entry_from_json, entry_to_json
from baycard.journal.judge import judge
from baycard.journal.refusal import REFUSAL_CODES, RefusalCode
from baycard.journal.slots import KIND_STANDS_IN
from tests.unit.journal.vectors import vectors

VECTORS = vectors("journal-judge")


def expanded(value: Any) -> Any:
    match value:
        case {"repeat": [text, count]}:
            return text * count
        case {"list": [item, count]}:
            return [item] * count
        case {"big": digits}:
            return 10**digits
    return value


def entry_of(case: dict[str, Any]) -> dict[str, Any]:
    entry: dict[str, Any] = copy.deepcopy(VECTORS["bases"][case["base"]])
    for path in case.get("remove", []):
        *holders, name = path.split(".")
        del within(entry, holders)[name]
    for path, value in case.get("change", {}).items():
        *holders, name = path.split(".")
        within(entry, holders)[name] = expanded(value)
    return entry


def within(entry: dict[str, Any], holders: list[str]) -> dict[str, Any]:
    for holder in holders:
        entry = entry[holder]
    return entry


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["says"])
def test_an_entry_is_taken_or_refused_for_its_reason(case: dict[str, Any]) -> None:
    refusal = judge(entry_of(case))
    assert (refusal.code if refusal else None) == case["code"]


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["says"])
def test_a_refusal_says_what_is_wrong_and_what_to_do(case: dict[str, Any]) -> None:
    refusal = judge(entry_of(case))
    assert refusal is None or (0 < len(refusal.title) < 200 and refusal.do.endswith("."))


@pytest.mark.parametrize("case", VECTORS["raw"], ids=lambda case: repr(case["value"]))
def test_what_is_no_entry_at_all_is_refused(case: dict[str, Any]) -> None:
    refusal = judge(case["value"])
    assert refusal is not None and refusal.code == case["code"]


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_a_value_that_is_not_finite_is_refused(value: float) -> None:
    refusal = judge(entry_of({"base": "number", "change": {"body.value": value}}))
    assert refusal is not None and refusal.code == "not-a-number"


@pytest.mark.parametrize("base", VECTORS["bases"])
def test_a_judged_entry_comes_back_from_json_unchanged_and_is_judged_alike(base: str) -> None:
    entry = entry_from_json(VECTORS["bases"][base])
    assert entry_to_json(entry) == VECTORS["bases"][base]
    assert judge(entry) is None


def test_the_vectors_hold_every_kind_and_every_reason() -> None:
    assert {base["kind"] for base in VECTORS["bases"].values()} == set(KIND_STANDS_IN)
    seen = {case["code"] for case in [*VECTORS["cases"], *VECTORS["raw"]]} - {None}
    assert seen == set(REFUSAL_CODES) == set(get_args(RefusalCode))
