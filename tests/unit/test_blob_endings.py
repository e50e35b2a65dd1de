"""How the files of photos and sounds end: the server and the phone's file for the desk say the same."""

import json
from pathlib import Path

from baycard.web.blobs import SUFFIX

VECTOR = Path(__file__).parents[1] / "vectors" / "blob-endings.json"


def test_the_server_ends_the_names_of_blobs_as_the_phones_file_does() -> None:
    assert json.loads(VECTOR.read_text(encoding="utf-8"))["endings"] == SUFFIX
