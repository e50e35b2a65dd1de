"""Two formats of an entry at one door: what the release after the next change of format will do, played today.

The table has one row today. Here it gets rows as a later release would add them: in format 1, so the play, a complaint
called its words `text`.
"""

from typing import Any

import pytest

from baycard.journal import formats, judge
from baycard.journal.entry import FORMAT, entry_from_json
from baycard.journal.formats import Raw, as_it_is, formats_taken, present
from baycard.journal.standing import standing
from tests.support.builders import CardBuilder
from tests.support.rescue import saved_file
from tests.support.server import InProcess


def from_one(raw: Raw) -> Raw:
    """Format 1 said in format 2."""
    body = {"words": raw["body"]["text"]} if raw["kind"] == "complaint" else raw["body"]
    return {**raw, "body": body, "format": 2}


def the_release_with(rows: dict[int, formats.Reader], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(formats, "READERS", rows)
    monkeypatch.setattr(judge, "FORMAT", max(rows))


@pytest.fixture
def second(monkeypatch: pytest.MonkeyPatch) -> None:
    """The release that brings format 2."""
    the_release_with({1: from_one, 2: as_it_is}, monkeypatch)


def old_and_new(card: CardBuilder) -> tuple[dict[str, Any], dict[str, Any]]:
    slots = [f"card/complaint/{card.fact()['id']}" for _ in range(2)]
    old = card.entry("complaint", slots[0], {"text": "A hum from the rear."}, format=1)
    return old, card.entry("complaint", slots[1], {"words": "A whistle uphill."}, format=2)


def test_today_there_is_one_row_and_the_door_says_so(ines: InProcess) -> None:
    assert formats_taken() == (FORMAT,)
    assert ines.get("/api/ping").json["formats"] == [FORMAT]


@pytest.mark.usefixtures("second")
def test_the_present_format_and_the_one_before_it_are_taken(ines: InProcess) -> None:
    old, new = old_and_new(ines.new_card())
    assert [result["outcome"] for result in ines.push([old, new])] == ["kept", "kept"]
    assert ines.get("/api/ping").json["formats"] == [1, 2]


@pytest.mark.usefixtures("second")
def test_an_entry_is_kept_and_handed_out_as_it_was_sent(ines: InProcess) -> None:
    old, new = old_and_new(ines.new_card())
    ines.push([old, new])
    assert [entry["body"] for entry in ines.pull()["entries"]] == [old["body"], new["body"]]
    assert [result["outcome"] for result in ines.push([old, new])] == ["already-kept", "already-kept"]


@pytest.mark.usefixtures("second")
def test_whoever_reads_the_card_reads_one_format(ines: InProcess) -> None:
    card = ines.new_card()
    stand = standing(entry_from_json(raw) for raw in old_and_new(card))
    bodies = [entry.body for entries in stand.values() for entry in entries]
    assert sorted(body["words"] for body in bodies) == ["A hum from the rear.", "A whistle uphill."]


@pytest.mark.usefixtures("second")
@pytest.mark.parametrize("body", [{"words": "of another format"}, None, 7, []])
def test_an_entry_that_is_not_what_its_format_says_is_refused_alone(ines: InProcess, body: object) -> None:
    old, new = old_and_new(ines.new_card())
    refused, kept = ines.push([old | {"body": body}, new])
    assert (refused["code"], kept["outcome"]) == ("not-an-entry", "kept")


@pytest.mark.usefixtures("second")
def test_a_format_from_the_future_is_refused_as_such(ines: InProcess) -> None:
    _, new = old_and_new(ines.new_card())
    assert ines.push([new | {"format": 3}])[0]["code"] == "newer-format"


def test_after_two_changes_an_app_of_the_first_format_is_told_to_reload(
    ines: InProcess, ruth: InProcess, monkeypatch: pytest.MonkeyPatch
) -> None:
    the_release_with({1: from_one, 2: from_one, 3: as_it_is}, monkeypatch)
    old, _ = old_and_new(ines.new_card())
    [refused] = ines.push([old])
    assert refused["code"] == "older-format" and "Reload" in refused["do"]
    answer = ruth.call("POST", "/api/desk/rescue", saved_file(ines, [old]))
    assert answer.json["results"][0]["code"] == "older-format", "a file is judged as a push is"


def test_what_was_kept_in_a_format_that_is_no_longer_taken_is_read_for_ever(
    ines: InProcess, monkeypatch: pytest.MonkeyPatch
) -> None:
    old, _ = old_and_new(ines.new_card())
    the_release_with({1: from_one, 2: as_it_is, 3: as_it_is}, monkeypatch)
    assert present(entry_from_json(old)).body == {"words": "A hum from the rear."}
