"""Files of unsent work as a phone saves them; a test may spoil any part."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from io import BytesIO
from typing import Any
from zipfile import ZIP_STORED, ZipFile

from tests.support.server import InProcess

Json = dict[str, Any]


def saved_file(
    phone: InProcess,
    entries: Sequence[object],
    blobs: Mapping[str, bytes] | None = None,
    changes: Mapping[str, object] | None = None,
) -> bytes:
    """The file of a phone; `changes` replace members of its list of contents.

    What others made was fetched by the phone and never waited on it.
    """
    lines = b"".join(_line(entry, phone) for entry in entries)
    blobs = blobs or {}
    told = {"count": len(entries), "bytes": len(lines), "sha256": hashlib.sha256(lines).hexdigest()}
    contents: Json = {
        "is": "baycard-rescue",
        "format": 1,
        "server": None,
        "workshop": {"id": phone.workshop, "name": "Tern Street Garage"},
        "device": {"id": phone.device, "name": "phone"},
        "saved_at": "2026-11-25T16:20:00.000Z",
        "entries": told,
        "blobs": [_blob(sha256, data) for sha256, data in blobs.items()],
        **(changes or {}),
    }
    return zipped(contents, lines, blobs)


def zipped(contents: object, lines: bytes, blobs: Mapping[str, bytes], how: int = ZIP_STORED) -> bytes:
    """The parts put together."""
    out = BytesIO()
    with ZipFile(out, "w", how) as made:
        made.writestr("entries.jsonl", lines)
        for sha256, data in blobs.items():
            made.writestr(f"blobs/{sha256}.jpg", data)
        made.writestr("baycard.json", json.dumps(contents))
    return out.getvalue()


def named(data: bytes) -> dict[str, bytes]:
    """A photo by its hash."""
    return {hashlib.sha256(data).hexdigest(): data}


WAITING = {"state": "waiting", "kept_at": 1_795_608_000_000, "reason": None}


def _line(entry: object, phone: InProcess) -> bytes:
    fetched = isinstance(entry, dict) and entry.get("device") != phone.device
    return json.dumps({"entry": entry, "outbox": None if fetched else WAITING}).encode() + b"\n"


def _blob(sha256: str, data: bytes) -> Json:
    return {"sha256": sha256, "bytes": len(data), "mime": "image/jpeg", "file": f"blobs/{sha256}.jpg"}
