"""The server reads the file that the phone's own code wrote: tests/vectors/phone-rescue.json is made by that code."""

import base64
import json
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from baycard.journal.judge import judge
from baycard.sync.rescue_file import Origin, RescueFileError, read_rescue_file

VECTOR: dict[str, Any] = json.loads(
    (Path(__file__).resolve().parents[2] / "vectors" / "phone-rescue.json").read_text(encoding="utf-8")
)
FILE = base64.b64decode(VECTOR["file"])


def test_the_entries_that_the_phone_wrote_are_read_and_are_sound() -> None:
    entries = read_rescue_file(BytesIO(FILE)).entries
    assert entries == VECTOR["entries"]
    assert [judge(entry) for entry in entries] == [None, None]


def test_the_photos_that_the_phone_wrote_are_read_byte_for_byte() -> None:
    file = read_rescue_file(BytesIO(FILE))
    read = []
    for blob in file.blobs:
        with file.open_blob(blob) as stream:
            read.append({"sha256": blob.sha256, "base64": base64.b64encode(stream.read()).decode()})
    assert read == VECTOR["blobs"]


def test_it_is_told_where_and_when_the_file_was_written() -> None:
    origin = read_rescue_file(BytesIO(FILE)).origin
    assert origin == Origin("server-1", "tern", "phone-1", "2026-11-25T16:20:00.000Z")


def test_of_every_cut_of_the_file_none_is_taken_for_the_whole() -> None:
    for length in range(len(FILE)):
        with pytest.raises(RescueFileError):
            read_rescue_file(BytesIO(FILE[:length]))
