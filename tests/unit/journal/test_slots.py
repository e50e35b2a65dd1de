"""Slots read the same on the phone and on the server."""

import dataclasses
from typing import Any

import pytest

from baycard.journal.slots import KIND_STANDS_IN, Slot, about_check, check_slot, finding_slot_for, may_stand, parse_slot
from tests.unit.journal.vectors import vectors

VECTORS = vectors("journal-slots")


def parts(slot: Slot | None) -> dict[str, Any] | None:
    if slot is None:
        return None
    named = {name.rstrip("_"): value for name, value in dataclasses.asdict(slot).items()}
    return {name: value for name, value in named.items() if value != "" and (name != "round" or slot.is_ == "check")}


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["slot"][:60])
def test_a_slot_gives_its_parts_or_nothing(case: dict[str, Any]) -> None:
    assert parts(parse_slot(case["slot"])) == case["parsed"]


@pytest.mark.parametrize("case", VECTORS["about"], ids=lambda case: case["about"])
def test_a_check_can_be_named_without_its_round(case: dict[str, Any]) -> None:
    assert parts(about_check(case["about"])) == case["parsed"]


@pytest.mark.parametrize("kind", VECTORS["kinds"])
def test_a_kind_stands_in_its_slots_and_in_no_other(kind: str) -> None:
    slots = [(slot, parse_slot(slot)) for slot in VECTORS["slots"]]
    assert [slot for slot, parsed in slots if parsed and may_stand(kind, parsed)] == VECTORS["kinds"][kind]


def test_the_vectors_name_every_kind() -> None:
    assert set(KIND_STANDS_IN) == set(VECTORS["kinds"]) - {"unheard-of"}


def test_the_slots_that_are_made_can_be_read() -> None:
    assert parts(parse_slot(check_slot("bearing-play", "rim", "rear-left", 2))) == {
        "is": "check",
        "checklist": "bearing-play",
        "check": "rim",
        "position": "rear-left",
        "round": 2,
    }
    assert parts(parse_slot(finding_slot_for("bearing-play", "rim", "rear-left"))) == {
        "is": "finding-at",
        "checklist": "bearing-play",
        "check": "rim",
        "position": "rear-left",
    }
