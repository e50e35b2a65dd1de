"""Pulling entries: pages in order of arrival, and nothing of the neighbours."""

import gzip
import json

import pytest

from tests.support.server import InProcess, World


def test_pages_follow_each_other_without_a_gap_or_an_overlap(ines: InProcess) -> None:
    entries = ines.new_card().readings(25)
    ines.push(entries)
    seen, after, pages = [], 0, 0
    while True:
        page = ines.pull(after, limit=10)
        seen += page["entries"]
        after, pages = page["cursor"], pages + 1
        if not page["more"]:
            break
    assert pages == 3
    assert [entry["id"] for entry in seen] == [entry["id"] for entry in entries]
    arrivals = [entry["arrival"] for entry in seen]
    assert arrivals == sorted(set(arrivals))


def test_an_entry_comes_back_as_it_was_sent(ines: InProcess) -> None:
    card = ines.new_card()
    first = card.fact('grün "quoted" \\ \U0001f527 \u2028')
    second = card.fact("other", replaces=[first["id"]])
    third = card.fact("by a clock three hours ahead", replaces=[second["id"]], clock_off_ms=10_800_000)
    made = [first, second, third]
    ines.push(made)
    came = ines.pull()["entries"]
    assert [{key: value for key, value in entry.items() if key != "arrival"} for entry in came] == made
    assert {result["outcome"] for result in ines.push(made)} == {"already-kept"}


def test_nothing_new_is_an_empty_page_with_the_same_cursor(ines: InProcess) -> None:
    ines.push(ines.new_card().readings(3))
    end = ines.pull()["cursor"]
    page = ines.pull(end)
    assert (page["entries"], page["cursor"], page["more"]) == ([], end, False)


def test_the_answer_that_nothing_is_new_has_no_body_and_names_the_server(world: World, ines: InProcess) -> None:
    answer = ines.get("/api/sync/pull?after=0")
    assert (answer.status, answer.data, answer.headers["Cache-Control"]) == (204, b"", "no-store")
    assert answer.headers["X-Baycard-Server"].startswith(ines.get("/api/ping").json["server"]["instance"])
    assert "Content-Type" not in answer.headers


def test_colleagues_see_each_others_entries_and_the_neighbours_see_none(
    world: World, ines: InProcess, tom: InProcess
) -> None:
    entry = ines.new_card().fact()
    ines.push([entry])
    assert tom.pulled_ids() == [entry["id"]]
    assert len(world.neighbour.pulled_ids()) == 2
    assert entry["id"] not in world.neighbour.pulled_ids()


def test_arrival_numbers_of_a_workshop_do_not_tell_how_busy_the_neighbours_are(world: World, ines: InProcess) -> None:
    world.neighbour.push(world.neighbour.new_card().readings(40))
    assert ines.push([ines.new_card().fact()])[0]["arrival"] == 1


def test_a_long_page_travels_compressed_to_whoever_takes_it(ines: InProcess) -> None:
    ines.push(ines.new_card().readings(100))
    packed = ines.get("/api/sync/pull?after=0", {"Accept-Encoding": "gzip"})
    assert packed.headers["Content-Encoding"] == "gzip"
    plain = ines.get("/api/sync/pull?after=0")
    assert "Content-Encoding" not in plain.headers
    assert json.loads(gzip.decompress(packed.data)) == plain.json
    assert len(packed.data) * 4 < len(plain.data)


def test_very_long_entries_come_in_shorter_pages_and_all_of_them_come(
    ines: InProcess, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("baycard.store.pages.PAGE_CHARACTERS_MAX", 2_000)
    entries = ines.new_card().readings(40)
    ines.push(entries)
    first = ines.pull()
    assert (first["more"], first["cursor"]) == (True, first["entries"][-1]["arrival"])
    assert 1 < len(first["entries"]) < 10
    assert ines.pulled_ids() == [entry["id"] for entry in entries]


def test_a_number_that_was_never_given_out_here_is_answered_with_the_last_that_was(ines: InProcess) -> None:
    arrival = ines.push([ines.new_card().fact()])[0]["arrival"]
    assert ines.get(f"/api/sync/pull?after={arrival}").status == 204
    page = ines.pull(arrival + 400)
    assert (page["entries"], page["cursor"], page["more"]) == ([], arrival, False)


def test_a_cursor_or_limit_that_is_none_is_told_by_name(ines: InProcess) -> None:
    for query in ("after=-1", "after=x", "limit=0", "limit=5001"):
        answer = ines.get(f"/api/sync/pull?{query}")
        assert (answer.status, answer.json["code"]) == (422, "bad-fields")
        assert query.split("=")[0] in str(answer.json["fields"])


def test_a_phone_can_compare_count_digest_and_blobs_of_a_card(world: World, ines: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact(), card.photo("ab" * 32)]
    ines.push(entries)
    answer = ines.get(f"/api/sync/digest/{card.card}").json
    assert answer["count"] == 2
    assert answer["blobs"] == [{"sha256": "ab" * 32, "held": False}]
    theirs = world.neighbour.get(f"/api/sync/digest/{card.card}").json
    assert (theirs["count"], theirs["blobs"]) == (0, [])
