"""Taking in a file to which a phone saved its unsent work."""

import json
import logging
from zipfile import ZIP_DEFLATED

import pytest

from tests.support.builders import CardBuilder
from tests.support.photos import heic_head, place_and_orientation, scene
from tests.support.photos import jpeg as as_jpeg
from tests.support.rescue import named, saved_file, zipped
from tests.support.server import Answer, InProcess, World, secret_of

PHOTO = as_jpeg(scene(640, 480), exif=place_and_orientation(6))
[SHA256] = named(PHOTO)


def take_in(foreman: InProcess, file: bytes) -> Answer:
    return foreman.call("POST", "/api/desk/rescue", file, {"Content-Type": "application/zip"})


def outcomes(answer: Answer) -> list[str]:
    assert answer.status == 200, answer.data
    return [result.get("code", result["outcome"]) for result in answer.json["results"]]


@pytest.fixture
def card(ines: InProcess) -> CardBuilder:
    """A card of which nothing has been sent."""
    return ines.new_card()


def test_what_waits_in_the_file_is_kept_as_if_the_phone_had_sent_it(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entries = [card.fact(), card.reading(), card.photo(SHA256, len(PHOTO))]
    answer = take_in(ruth, saved_file(ines, entries, named(PHOTO)))
    assert outcomes(answer) == ["kept"] * 3
    assert answer.json["blobs"] == [{"sha256": SHA256, "outcome": "kept"}]
    assert answer.json["cards"] == [card.card]
    pulled = ruth.pull()["entries"]
    assert [{key: value for key, value in entry.items() if key != "arrival"} for entry in pulled] == entries


def test_what_a_device_recorded_that_a_restored_server_has_forgotten_is_taken_from_its_own_file_only(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    forgotten, stranger = "0c9ab3f0-0000-4000-8000-000000000001", "0c9ab3f0-0000-4000-8000-000000000002"
    entries = [card.fact(device=forgotten), card.reading(device=stranger)]
    file = saved_file(ines, entries, changes={"device": {"id": forgotten, "name": "phone"}})
    assert outcomes(take_in(ruth, file)) == ["kept", "unknown-device"]


def test_more_entries_than_one_push_may_hold_come_in_at_once(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entries = card.readings(1_200)
    assert outcomes(take_in(ruth, saved_file(ines, entries))) == ["kept"] * 1_200
    assert ruth.pulled_ids() == [entry["id"] for entry in entries]


def test_a_file_of_more_entries_than_can_be_judged_at_once_is_refused_whole(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    answer = take_in(ruth, saved_file(ines, [card.fact()], changes={"entries": {"count": 20_001}}))
    assert (answer.status, answer.json["code"]) == (413, "rescue-too-large")
    assert ruth.pulled_ids() == []


def test_a_photo_from_the_file_is_cleaned_as_one_that_was_uploaded(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    take_in(ruth, saved_file(ines, [card.photo(SHA256)], named(PHOTO)))
    stored = ruth.get(f"/api/blobs/{SHA256}").data
    assert stored[:2] == b"\xff\xd8" and b"GPS" not in stored and b"Gullwing" not in stored
    assert ruth.get(f"/api/blobs/{SHA256}?size=print").status == 200


def test_taking_it_in_twice_changes_nothing(ines: InProcess, ruth: InProcess, card: CardBuilder) -> None:
    file = saved_file(ines, [card.fact(), card.photo(SHA256)], named(PHOTO))
    first, again = take_in(ruth, file), take_in(ruth, file)
    assert outcomes(again) == ["already-kept"] * 2
    assert again.json["blobs"][0]["outcome"] == "already-kept"
    assert [one["arrival"] for one in again.json["results"]] == [one["arrival"] for one in first.json["results"]]
    assert len(ruth.pulled_ids()) == 2


def test_when_the_phone_meets_the_server_it_finds_everything_kept(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entries = [card.fact(), card.photo(SHA256)]
    take_in(ruth, saved_file(ines, entries, named(PHOTO)))
    assert [result["outcome"] for result in ines.push(entries)] == ["already-kept"] * 2
    assert ines.put(SHA256, PHOTO).status == 200
    assert ines.pulled_ids() == [entry["id"] for entry in entries]


def test_after_the_phone_itself_sent_everything_the_file_changes_nothing(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entries = [card.fact(), card.photo(SHA256)]
    ines.push(entries)
    ines.put(SHA256, PHOTO)
    answer = take_in(ruth, saved_file(ines, entries, named(PHOTO)))
    assert outcomes(answer) == ["already-kept"] * 2
    assert answer.json["blobs"][0]["outcome"] == "already-kept"


@pytest.mark.parametrize("arrived", [PHOTO[:9_000], b"\0" * 9_000])
def test_a_photo_of_which_the_server_holds_a_part_is_completed_from_the_file(
    ines: InProcess, ruth: InProcess, card: CardBuilder, arrived: bytes
) -> None:
    assert ines.put(SHA256, arrived, length=len(PHOTO)).status == 204
    answer = take_in(ruth, saved_file(ines, [card.photo(SHA256)], named(PHOTO)))
    assert answer.json["blobs"][0]["outcome"] == "kept"
    assert ruth.get(f"/api/blobs/{SHA256}").status == 200


def test_each_entry_is_judged_alone_and_the_reasons_come_back(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    bad = card.reading() | {"body": {"is": "number", "value": "many", "unit": "mm"}}
    foreign = card.fact(author="0" * 8)
    answer = take_in(ruth, saved_file(ines, [card.fact(), bad, foreign, {"id": 5}]))
    assert outcomes(answer) == ["kept", "not-a-number", "unknown-author", "not-an-entry"]
    assert all(one["title"] and one["do"] for one in answer.json["results"][1:])


def test_a_blob_that_is_no_photo_is_refused_in_a_sentence_and_the_rest_is_kept(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    heic = heic_head() + b"\0" * 500
    answer = take_in(ruth, saved_file(ines, [card.fact()], {**named(heic), **named(PHOTO)}))
    refused, kept = answer.json["blobs"]
    assert refused["outcome"] == "refused" and refused["title"] and refused["do"]
    assert kept["outcome"] == "kept" and outcomes(answer) == ["kept"]


def test_what_a_shut_out_device_recorded_can_be_taken_in_by_the_foreman(
    ines: InProcess, tom: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entry = card.fact()
    ruth.post(f"/api/people/devices/{ines.device}/revoke")
    assert tom.push([entry])[0]["code"] == "device-revoked"
    assert outcomes(take_in(ruth, saved_file(ines, [entry]))) == ["kept"]
    assert ines.get("/api/people/me").json["code"] == "device-revoked", "the device itself stays shut out"


def test_the_foreman_who_takes_a_file_in_lends_nobody_the_foremans_pen(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    by_ines, by_ruth = card.sent_back(), card.sent_back(author=ruth.person)
    signed = card.entry("signed-off", "stage", {"revision": 1})
    assert outcomes(take_in(ruth, saved_file(ines, [by_ines, by_ruth])))[0] == "role"
    assert outcomes(take_in(ruth, saved_file(ines, [by_ruth]))) == ["already-kept"]
    assert outcomes(take_in(ruth, saved_file(ines, [signed])))[0] not in {"kept", "already-kept"}


def test_a_technician_may_not_take_a_file_in(ines: InProcess, card: CardBuilder) -> None:
    answer = take_in(ines, saved_file(ines, [card.fact()]))
    assert (answer.status, answer.json["code"]) == (403, "role")


def test_the_log_says_who_took_which_phones_file_in(
    ines: InProcess, ruth: InProcess, card: CardBuilder, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.INFO, "baycard.audit"):
        take_in(ruth, saved_file(ines, [card.fact(), {"id": 5}], named(PHOTO)))
    line = json.loads(caplog.records[-1].getMessage())
    assert (line["deed"], line["person"], line["from_device"]) == ("phone's file taken in", ruth.person, ines.device)
    assert (line["kept"], line["already_kept"], line["refused"], line["photos"]) == (1, 0, 1, 1)


def test_a_file_of_another_workshop_or_server_is_refused_whole(
    world: World, ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entry = world.noise.fact()
    theirs = saved_file(world.neighbour, [entry])
    signed_out = saved_file(world.neighbour, [entry], changes={"workshop": None})
    elsewhere = saved_file(ines, [card.fact()], changes={"server": {"instance": "another", "epoch": 1}})
    for file in (theirs, signed_out, elsewhere):
        answer = take_in(ruth, file)
        assert (answer.status, answer.json["code"]) == (409, "rescue-other-workshop")
    assert ruth.pulled_ids() == []


def test_what_another_workshop_recorded_on_the_phone_stays_out_with_its_photos(
    world: World, ines: InProcess, card: CardBuilder
) -> None:
    """The phone belongs to the neighbour now; Ines's work still waits on it."""
    fay = world.sign_in("Fay Gull")
    entries = [card.fact(), card.photo(SHA256, len(PHOTO))]
    answer = take_in(fay, saved_file(world.neighbour, entries, named(PHOTO)))
    assert outcomes(answer) == ["unknown-author"] * 2
    assert [(blob["outcome"], blob["code"]) for blob in answer.json["blobs"]] == [("refused", "unknown-author")]
    ines.push([entries[0]])
    at_home = [card.photo(SHA256, len(PHOTO))]
    answer = take_in(fay, saved_file(world.neighbour, at_home, named(PHOTO)))
    assert [blob["code"] for blob in answer.json["blobs"]] == ["other-workshop"]
    in_sight = answer.json["blobs"][0]
    assert in_sight["title"] and in_sight["do"]
    sent_before = saved_file(world.neighbour, [], named(PHOTO), {"blobs": [_of_card(card.card)]})
    assert [blob["code"] for blob in take_in(fay, sent_before).json["blobs"]] == ["other-workshop"]
    assert fay.call("HEAD", f"/api/blobs/{SHA256}").status == 404


def test_what_ones_own_people_recorded_on_a_phone_that_is_anothers_now_is_taken_in(
    world: World, ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    entries = [card.fact(), card.photo(SHA256, len(PHOTO)), world.noise.fact("GULL 2")]
    answer = take_in(ruth, saved_file(world.neighbour, entries, named(PHOTO)))
    assert outcomes(answer) == ["kept", "kept", "other-workshop"]
    assert [blob["outcome"] for blob in answer.json["blobs"]] == ["kept"]
    sent_before = saved_file(world.neighbour, [], named(PHOTO), {"blobs": [_of_card(card.card)]})
    assert [blob["outcome"] for blob in take_in(ruth, sent_before).json["blobs"]] == ["already-kept"]


def _of_card(card: str) -> dict[str, object]:
    file = f"blobs/{SHA256}.jpg"
    return {"sha256": SHA256, "bytes": len(PHOTO), "mime": "image/jpeg", "file": file, "card": card}


def test_a_file_of_this_very_server_is_known_as_such(ines: InProcess, ruth: InProcess, card: CardBuilder) -> None:
    server = ines.get("/api/ping").json["server"]
    signed_out = saved_file(ines, [card.fact()], changes={"server": server, "workshop": None})
    assert outcomes(take_in(ruth, signed_out)) == ["kept"]


def test_one_server_is_known_as_such_under_two_names(world: World, ines: InProcess) -> None:
    card, seen = ines.new_card(), set()
    for name in ("http://old.example", "http://new.example"):
        client = world.app.test_client()
        wish = {"name": "Ines Varga", "secret": secret_of("Ines Varga"), "device_name": "phone", "device": ines.device}
        ours = {"X-Baycard": "1", "Origin": name}
        client.post("/api/people/sign-in", json=wish, headers=ours, base_url=name)
        pushed = client.post("/api/sync/push", json={"entries": [card.fact()]}, headers=ours, base_url=name)
        assert pushed.json is not None and pushed.json["results"][0]["outcome"] == "kept"
        seen.add(pushed.headers["X-Baycard-Server"])
    assert len(seen) == 1


def test_a_file_of_a_newer_app_is_refused_with_what_to_do(ines: InProcess, ruth: InProcess, card: CardBuilder) -> None:
    answer = take_in(ruth, saved_file(ines, [card.fact()], changes={"format": 2, "entries": "in another way"}))
    assert (answer.status, answer.json["code"]) == (422, "rescue-newer")
    assert "Update" in answer.json["do"]


@pytest.mark.parametrize("file", [b"", b"not a zip", PHOTO, zipped({"is": "something else"}, b"", {})])
def test_another_kind_of_file_is_refused(ruth: InProcess, file: bytes) -> None:
    assert take_in(ruth, file).json["code"] == "rescue-not-ours"


def test_a_file_that_was_cut_anywhere_is_refused_and_nothing_is_taken(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    whole = saved_file(ines, [card.fact()], named(PHOTO))
    for length in (len(whole) - 1, len(whole) - 200, len(whole) // 2, 40):
        assert take_in(ruth, whole[:length]).json["code"] == "rescue-damaged", length
    assert ruth.pulled_ids() == []


def test_one_wrong_bit_anywhere_is_noticed_and_nothing_is_taken(
    ines: InProcess, ruth: InProcess, card: CardBuilder
) -> None:
    small = as_jpeg(scene(64, 48))
    entry = card.fact()
    whole = saved_file(ines, [entry], named(small))
    ending = range(len(whole) - 22, len(whole))  # says where the listing is: a wrong place may lie before the file
    for place in (*range(0, len(whole), 61), *ending):
        spoilt = bytearray(whole)
        spoilt[place] ^= 1
        answer = take_in(ruth, bytes(spoilt))
        # Bits that say nothing, such as the time a member was written, may be anything.
        assert answer.status == 200 or answer.json["code"].startswith("rescue-"), (place, answer.data)
    assert [kept["body"] for kept in ruth.pull()["entries"]] in ([], [entry["body"]])


@pytest.mark.parametrize(
    "changes",
    [
        {"blobs": [{"sha256": "../../etc", "bytes": 3, "file": "entries.jsonl"}]},
        {"blobs": [{"sha256": SHA256, "bytes": 3, "file": "not/there.jpg"}]},
        {"blobs": "none"},
        {"blobs": None},
        {"entries": {"count": 1, "sha256": "0" * 64}},
        {"entries": {"count": 2}},
        {"entries": []},
        {"device": "a phone"},
    ],
)
def test_a_list_of_contents_that_does_not_fit_is_refused(
    ines: InProcess, ruth: InProcess, card: CardBuilder, changes: dict[str, object]
) -> None:
    answer = take_in(ruth, saved_file(ines, [card.fact()], changes=changes))
    assert (answer.status, answer.json["code"]) == (422, "rescue-damaged")


def test_a_file_that_would_grow_when_it_is_read_is_refused(ruth: InProcess) -> None:
    bomb = zipped({"is": "baycard-rescue", "format": 1}, b"\0" * 5_000_000, {}, ZIP_DEFLATED)
    assert len(bomb) < 20_000
    assert take_in(ruth, bomb).json["code"] == "rescue-damaged"
