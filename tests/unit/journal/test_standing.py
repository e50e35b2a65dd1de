"""What stands depends on the set of entries alone."""

from typing import Any

import pytest

from baycard.journal.digest import digest
from baycard.journal.entry import Entry
from baycard.journal.standing import disagreements, standing
from tests.unit.journal.laws import assert_converges
from tests.unit.journal.vectors import vectors


def entry(id: str, slot: str, replaces: list[str]) -> Entry:
    return Entry(id, "card", slot, "answer", {}, tuple(replaces), "ines", "phone", "2026-11-20T09:14:03.120Z")


@pytest.mark.parametrize("case", vectors("journal-standing")["cases"], ids=lambda case: case["says"])
def test_the_standing_entries_are_those_of_the_vectors(case: dict[str, Any]) -> None:
    entries = [entry(**one) for one in case["entries"]]
    found = standing(entries)
    assert {slot: [one.id for one in stand] for slot, stand in found.items()} == case["standing"]
    assert disagreements(found) == case["disagreements"]
    assert_converges([entries[::2], entries[1::2]], entries)


@pytest.mark.parametrize("case", vectors("journal-digest")["cases"], ids=lambda case: f"{len(case['ids'])} ids")
def test_the_digest_is_that_of_the_sorted_ids(case: dict[str, Any]) -> None:
    assert digest(case["ids"]) == case["digest"]
    assert digest(reversed(case["ids"])) == case["digest"]
