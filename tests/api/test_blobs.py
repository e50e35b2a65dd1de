"""Photos and sounds: resumable in, checked, cleaned, and out to their own workshop only."""

import hashlib
import io
import os
import time
from pathlib import Path

import pytest
from PIL import Image

from baycard.store.verify import check_store
from baycard.sync.abandoned import ABANDONED_AFTER_S
from tests.support.photos import heic_head, jpeg, phone_jpeg, png_named_jpg, scene, small_clean_jpeg
from tests.support.server import InProcess, World, furnish

SOUNDS = {
    "audio/webm": b"\x1a\x45\xdf\xa3\x9f\x42\x86\x81\x01\x42\xf7\x81\x01\x42\x82\x84webm" + b"\x00" * 400,
    "audio/ogg": b"OggS\x00\x02" + b"\x00" * 400,
    "audio/mp4": b"\x00\x00\x00\x18ftypM4A \x00\x00\x00\x00" + b"\x00" * 400,
    "audio/wav": b"RIFF\x24\x08\x00\x00WAVEfmt " + b"\x00" * 400,
}


def sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def progress(answer: object) -> tuple[int, str, str]:
    headers = answer.headers  # type: ignore[attr-defined]  # an Answer
    return int(headers["Upload-Offset"]), headers["Upload-Length"], headers["Upload-Complete"]


def test_a_photo_sent_whole_is_held_and_comes_back_byte_for_byte(ines: InProcess, tom: InProcess) -> None:
    data = small_clean_jpeg()
    answer = ines.put(sha256(data), data)
    assert (answer.status, progress(answer)) == (201, (len(data), str(len(data)), "?1"))
    back = tom.get(f"/api/blobs/{sha256(data)}")
    assert (back.status, back.data) == (200, data)


def test_the_same_photo_again_is_already_held(ines: InProcess) -> None:
    data = small_clean_jpeg()
    ines.put(sha256(data), data)
    answer = ines.put(sha256(data), data)
    assert (answer.status, progress(answer)[2]) == (200, "?1")
    assert ines.call("HEAD", f"/api/blobs/{sha256(data)}").status == 200


def test_a_photo_sent_in_pieces_is_whole_in_the_end(ines: InProcess) -> None:
    data = small_clean_jpeg()
    name, step = sha256(data), len(data) // 3
    assert ines.call("HEAD", f"/api/blobs/{name}").status == 404
    for offset in range(0, len(data), step):
        answer = ines.put(name, data[offset : offset + step], offset, len(data))
        held = min(offset + step, len(data))
        assert answer.status == (201 if held == len(data) else 204)
        assert progress(ines.call("HEAD", f"/api/blobs/{name}"))[0] == held
    assert ines.get(f"/api/blobs/{name}").data == data


def test_a_wrong_offset_changes_nothing_and_is_told_the_right_one(ines: InProcess) -> None:
    data = small_clean_jpeg()
    name = sha256(data)
    ines.put(name, data[:100], 0, len(data))
    for offset in (0, 50, 101, 2000):
        answer = ines.put(name, data[offset : offset + 200], offset, len(data))
        assert (answer.status, answer.json["code"], answer.json["offset"]) == (409, "wrong-offset", 100)
        assert answer.headers["Upload-Offset"] == "100"
    assert ines.put(name, data[100:], 100, len(data)).status == 201


def test_a_part_that_is_full_but_was_never_finished_is_finished_by_an_empty_piece(
    world: World, ines: InProcess
) -> None:
    data = small_clean_jpeg()
    name = sha256(data)
    with world.store.blobs.open_part(ines.workshop, name, len(data)) as file:
        file.write(data)
    assert progress(ines.call("HEAD", f"/api/blobs/{name}")) == (len(data), str(len(data)), "?0")
    assert ines.put(name, b"", len(data), len(data)).status == 201


def test_bytes_that_do_not_fit_the_hash_are_thrown_away_and_can_be_sent_again(ines: InProcess) -> None:
    data = small_clean_jpeg()
    name = sha256(data)
    answer = ines.put(name, b"\xff\xd8\xff" + data[3:-1] + b"x")
    assert (answer.status, answer.json["code"]) == (422, "hash-mismatch")
    assert ines.call("HEAD", f"/api/blobs/{name}").status == 404
    assert ines.put(name, data).status == 201


def test_a_photo_that_tells_where_it_was_taken_is_kept_without_the_place(world: World, ines: InProcess) -> None:
    data = phone_jpeg(orientation=6, size=(1200, 900))
    assert b"Exif" in data
    assert ines.put(sha256(data), data).status == 201
    back = ines.get(f"/api/blobs/{sha256(data)}").data
    assert back != data and b"Exif" not in back
    with Image.open(io.BytesIO(back)) as image:
        assert image.size == (1200, 900)
    kept = [path.read_bytes() for path in world.settings.folder.rglob("*") if path.is_file()]
    assert not any(data in content for content in kept)


def test_the_small_picture_for_print_is_made_when_it_is_first_asked_for_and_only_once(
    world: World, ines: InProcess
) -> None:
    data = phone_jpeg(size=(2400, 1800))
    ines.put(sha256(data), data)
    path = world.store.blobs.path(ines.workshop, sha256(data), "print")
    assert not path.exists()
    answer = ines.get(f"/api/blobs/{sha256(data)}?size=print")
    with Image.open(io.BytesIO(answer.data)) as image:
        assert (image.format, max(image.size)) == ("JPEG", 800)
    made_at = path.stat().st_mtime_ns
    assert ines.get(f"/api/blobs/{sha256(data)}?size=print").data == answer.data == path.read_bytes()
    assert path.stat().st_mtime_ns == made_at


def test_a_photo_that_is_small_is_its_own_small_picture(world: World, ines: InProcess) -> None:
    data = jpeg(scene(400, 300))
    ines.put(sha256(data), data)
    assert ines.get(f"/api/blobs/{sha256(data)}?size=print").data == data
    assert not world.store.blobs.path(ines.workshop, sha256(data), "print").exists()


def test_what_arrived_of_an_upload_that_nobody_went_on_with_is_thrown_away_after_a_week(tmp_path: Path) -> None:
    furnish(tmp_path)
    world = World(tmp_path)
    ines, photo, other = world.sign_in("Ines Varga"), phone_jpeg(size=(1200, 900)), small_clean_jpeg()
    for data in (photo, other):
        ines.put(sha256(data), data[:500], 0, len(data))
    old, fresh = (next(tmp_path.glob(f"blobs/*/parts/{sha256(data)}.*")) for data in (photo, other))
    left_alone = time.time() - ABANDONED_AFTER_S
    os.utime(old, (left_alone - 60, left_alone - 60))
    os.utime(fresh, (left_alone + 3_600, left_alone + 3_600))
    ines.put("0" * 64, b"x", 0, 2)
    assert old.exists(), "it is looked for once a day, and was when the server started"
    world.store.close()
    again = World(tmp_path).sign_in("Ines Varga")
    assert (old.exists(), fresh.exists()) == (False, True)
    assert again.put(sha256(other), other[500:], 500, len(other)).status == 201
    assert again.put(sha256(photo), photo).status == 201


@pytest.mark.parametrize("mime", SOUNDS)
def test_a_sound_is_known_by_its_first_bytes(ines: InProcess, mime: str) -> None:
    data = SOUNDS[mime]
    assert ines.put(sha256(data), data).status == 201
    answer = ines.get(f"/api/blobs/{sha256(data)}")
    assert (answer.headers["Content-Type"], answer.data) == (mime, data)


NEITHER = (
    b"<html><script>alert(1)</script>",
    b"%PDF-1.7",
    b"MZ" + b"\0" * 99,
    b"<svg xmlns='x'/>",
    heic_head(),
    b"\xff\xd8\xff",
)


@pytest.mark.parametrize("data", NEITHER)
def test_what_is_neither_photo_nor_sound_is_refused_in_a_plain_sentence(ines: InProcess, data: bytes) -> None:
    answer = ines.put(sha256(data), data)
    assert answer.status == 422
    assert answer.json["title"] and answer.json["do"]
    assert ines.get(f"/api/blobs/{sha256(data)}").status == 404
    assert ines.call("HEAD", f"/api/blobs/{sha256(data)}").status == 404


def test_what_a_file_is_called_plays_no_part(ines: InProcess) -> None:
    data = png_named_jpg()
    headers = {"Upload-Length": str(len(data)), "Content-Type": "text/html"}
    assert ines.call("PUT", f"/api/blobs/{sha256(data)}", data, headers).status == 201
    assert ines.get(f"/api/blobs/{sha256(data)}").headers["Content-Type"].startswith("image/")


def test_more_than_twenty_five_megabytes_is_refused_before_a_byte_is_read(ines: InProcess) -> None:
    answer = ines.put("ab" * 32, b"x", 0, 25 * 1024 * 1024 + 1)
    assert (answer.status, answer.json["code"]) == (413, "blob-too-large")
    assert ines.call("HEAD", f"/api/blobs/{'ab' * 32}").status == 404


def test_lengths_and_hashes_that_make_no_sense_are_refused(ines: InProcess) -> None:
    name = "ab" * 32
    for headers in (
        {"Upload-Length": "-1"},
        {"Upload-Length": "many"},
        {"Upload-Length": "10", "Upload-Offset": "11"},
        {"Upload-Length": "0"},
        {"Upload-Length": "2"},
    ):
        answer = ines.call("PUT", f"/api/blobs/{name}", b"abc", headers)
        assert (answer.status, answer.json["code"]) == (400, "bad-length"), headers
    for name in ("AB" * 32, "ab" * 31, "..", "ab" * 33):
        assert ines.put(name, b"abc").json["code"] == "bad-hash"


def test_another_workshop_can_neither_see_nor_spoil_a_photo(world: World, ines: InProcess) -> None:
    data = small_clean_jpeg()
    name = sha256(data)
    ines.put(name, data[:500], 0, len(data))
    assert world.neighbour.call("HEAD", f"/api/blobs/{name}").status == 404
    assert world.neighbour.put(name, b"junk", 0, len(data)).status == 204
    assert ines.put(name, data[500:], 500, len(data)).status == 201
    assert world.neighbour.get(f"/api/blobs/{name}").status == 404


def test_a_photo_of_another_workshops_card_is_refused_and_waits_for_its_own(world: World, ines: InProcess) -> None:
    data, card = small_clean_jpeg(), ines.new_card()
    name = sha256(data)
    photo = card.photo(name)
    ines.push([photo])
    ines.put(name, data[:500], 0, len(data), of=photo)
    for piece in ((data, 0), (data[500:], 500)):
        refused = world.neighbour.put(name, *piece, len(data), of=photo)
        assert (refused.status, refused.json["code"]) == (403, "other-workshop")
    assert world.neighbour.call("HEAD", f"/api/blobs/{name}").status == 404
    assert ines.put(name, data[500:], 500, len(data), of=photo).status == 201


def test_a_photo_of_a_card_that_nobody_knows_yet_is_taken_from_ones_own_people_only(
    world: World, ines: InProcess, tom: InProcess
) -> None:
    data, card = small_clean_jpeg(), ines.new_card()
    name = sha256(data)
    refused = world.neighbour.put(name, data, of=card.photo(name))
    assert (refused.status, refused.json["code"]) == (403, "unknown-author")
    assert world.neighbour.call("HEAD", f"/api/blobs/{name}").status == 404
    assert tom.put(name, data, of=card.photo(name)).status == 201


def test_a_photo_is_served_so_that_no_browser_takes_it_for_a_page(ines: InProcess) -> None:
    data = small_clean_jpeg()
    ines.put(sha256(data), data)
    headers = ines.get(f"/api/blobs/{sha256(data)}").headers
    assert headers["Content-Type"] == "image/jpeg"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Content-Disposition"].endswith(".jpg")
    assert headers["Cache-Control"] == "private, max-age=31536000, immutable"
    assert headers["Content-Security-Policy"] == "default-src 'none'; sandbox"


def test_a_photo_whose_file_the_server_lost_is_asked_for_and_taken_again(world: World, ines: InProcess) -> None:
    data, card = small_clean_jpeg(), ines.new_card()
    name = sha256(data)
    ines.push([card.photo(name)])
    ines.put(name, data)
    world.store.blobs.path(ines.workshop, name).unlink()
    compared = ines.get(f"/api/sync/digest/{card.card}").json
    assert compared["blobs"] == [{"sha256": name, "held": False}]
    assert ines.call("HEAD", f"/api/blobs/{name}").status == 404
    assert ines.put(name, data).status == 201
    assert ines.get(f"/api/blobs/{name}").data == data
    assert check_store(world.store) == []


def test_a_card_knows_which_of_its_photos_are_here(ines: InProcess) -> None:
    data, card = small_clean_jpeg(), ines.new_card()
    ines.push([card.photo(sha256(data)), card.photo("cd" * 32)])
    ines.put(sha256(data), data)
    held = {line["sha256"]: line["held"] for line in ines.get(f"/api/sync/digest/{card.card}").json["blobs"]}
    assert held == {sha256(data): True, "cd" * 32: False}
