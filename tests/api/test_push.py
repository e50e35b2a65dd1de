"""Pushing entries: what is kept, what is refused, and that one bad entry harms no other."""

import pytest

from tests.support.builders import new_id, push_body
from tests.support.server import JSON, InProcess, World


def outcomes(results: list[dict[str, object]]) -> list[object]:
    return [result.get("code", result["outcome"]) for result in results]


def test_what_is_pushed_is_kept_and_numbered_in_order_of_arrival(ines: InProcess) -> None:
    entries = ines.new_card().readings(5)
    results = ines.push(entries)
    assert [result["id"] for result in results] == [entry["id"] for entry in entries]
    assert outcomes(results) == ["kept"] * 5
    arrivals = [result["arrival"] for result in results]
    assert arrivals == list(range(arrivals[0], arrivals[0] + 5))


def test_an_answer_lost_after_the_commit_does_not_make_a_second_entry(ines: InProcess) -> None:
    entries = ines.new_card().readings(3)
    first, again = ines.push(entries), ines.push(entries)
    assert outcomes(again) == ["already-kept"] * 3
    assert [result["arrival"] for result in again] == [result["arrival"] for result in first]
    assert ines.pulled_ids() == [entry["id"] for entry in entries]


def test_the_same_entry_twice_in_one_batch_is_kept_once(ines: InProcess) -> None:
    entry = ines.new_card().fact()
    assert outcomes(ines.push([entry, entry])) == ["kept", "already-kept"]
    assert ines.pulled_ids() == [entry["id"]]


def test_the_same_id_with_other_content_is_refused_and_the_first_stands(ines: InProcess) -> None:
    card = ines.new_card()
    entry = card.fact("first")
    ines.push([entry])
    assert outcomes(ines.push([entry | {"body": {"value": "second"}}])) == ["id-conflict"]
    assert [kept["body"] for kept in ines.pull()["entries"]] == [{"value": "first"}]


def test_another_workshop_learns_nothing_from_an_id_that_is_taken(world: World, ines: InProcess) -> None:
    entry = ines.new_card().fact()
    ines.push([entry])
    stolen = world.neighbour.new_card().fact(id=entry["id"])
    assert outcomes(world.neighbour.push([stolen])) == ["id-conflict"]
    assert entry["id"] not in world.neighbour.pulled_ids()


def test_one_bad_entry_among_five_hundred_blocks_none_of_the_others(ines: InProcess) -> None:
    entries = ines.new_card().readings(500)
    entries[250]["body"] = {"is": "number", "value": "many", "unit": "mm"}
    results = ines.push(entries)
    assert [index for index, result in enumerate(results) if result["outcome"] == "refused"] == [250]
    assert len(ines.pulled_ids()) == 499
    refused = results[250]
    assert refused["id"] == entries[250]["id"]
    assert refused["code"] and refused["title"] and refused["do"]


@pytest.mark.parametrize("bad", [None, 7, "entry", [], {}, {"id": 5}, {"format": 1}, {"id": {"deep": []}, "format": 1}])
def test_what_is_no_entry_at_all_is_refused_with_a_reason(ines: InProcess, bad: object) -> None:
    good = ines.new_card().fact()
    refused, kept = ines.push([bad, good])  # type: ignore[list-item]  # a spoilt phone
    assert (refused["outcome"], kept["outcome"]) == ("refused", "kept")
    assert refused["title"] and refused["do"]


@pytest.mark.parametrize("spoilt", ['"\\ud800"', "1e999", "123456789012345678901234567890", '"' + "x" * 300_000 + '"'])
def test_what_could_never_be_frozen_is_refused_alone(ines: InProcess, spoilt: str) -> None:
    card = ines.new_card()
    text = push_body([card.fact("SPOILT"), card.fact()]).replace(b'"SPOILT"', spoilt.encode())
    answer = ines.call("POST", "/api/sync/push", text, JSON)
    assert [(run["count"], run["outcome"]) for run in answer.json["results"]] == [(1, "refused"), (1, "kept")]


def test_an_entry_for_a_card_of_another_workshop_is_refused(world: World, ines: InProcess) -> None:
    mine = ines.new_card()
    theirs = mine.fact(card=world.noise.card)
    assert outcomes(ines.push([theirs, mine.fact()])) == ["other-workshop", "kept"]
    assert len(world.neighbour.pulled_ids()) == 2


def test_a_colleague_may_send_from_a_shared_phone_what_another_recorded_on_it(world: World, ines: InProcess) -> None:
    card = ines.new_card()
    entry = card.reading()
    tom_on_the_same_phone = world.sign_in("Tom Abara", ines.device)
    assert tom_on_the_same_phone.device == ines.device
    assert outcomes(tom_on_the_same_phone.push([entry])) == ["kept"]
    assert tom_on_the_same_phone.pull()["entries"][0]["author"] == ines.person


def test_an_author_or_device_from_outside_the_workshop_is_refused(world: World, ines: InProcess) -> None:
    card = ines.new_card()
    entries = [
        card.fact(author=world.neighbour.person),
        card.fact(author=new_id()),
        card.fact(device=world.neighbour.device),
        card.fact(device=new_id()),
    ]
    assert outcomes(ines.push(entries)) == ["unknown-author", "unknown-author", "unknown-device", "unknown-device"]
    assert ines.pulled_ids() == []


def test_only_the_desk_sends_back_and_nobody_pushes_a_sign_off(
    ines: InProcess, ruth: InProcess, olga: InProcess
) -> None:
    assert outcomes(ines.push([ines.new_card().sent_back()])) == ["role"]
    assert outcomes(ruth.push([ruth.new_card().sent_back()])) == ["kept"]
    assert outcomes(olga.push([olga.new_card().sent_back()])) == ["kept"]
    body = {
        "revision": 1,
        "count": 1,
        "digest": "0" * 64,
        "arrival": 1,
        "sha256": "0" * 64,
        "drive": "yes",
        "restrictions": "",
        "look_again": "",
        "words": "",
    }
    assert outcomes(ruth.push([ruth.new_card().entry("signed-off", "stage", body)])) == ["desk-only"]


def test_a_batch_of_a_thousand_is_taken_and_one_more_is_told_the_limit(ines: InProcess) -> None:
    entries = ines.new_card().readings(1001)
    answer = ines.post("/api/sync/push", {"entries": entries})
    assert (answer.status, answer.json["code"], answer.json["limit"]) == (413, "batch-too-large", 1000)
    assert ines.pulled_ids() == []
    assert len(ines.push(entries[:1000])) == 1000


def test_an_empty_batch_is_an_empty_answer(ines: InProcess) -> None:
    assert ines.push([]) == []
