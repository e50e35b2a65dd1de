"""The log of who did what: signing in, shutting out, new secrets, signing off, mailing. It holds no secret itself."""

import json
import logging
import time
from collections.abc import Mapping
from pathlib import Path

from flask import g, request

from baycard.journal.entry import iso_time
from baycard.store.backup import AUDIT_FILE
from baycard.store.values import SignedIn
from baycard.web.parts import parts

log = logging.getLogger("baycard.audit")

NEW_SECRET = "person given a new secret"  # noqa: S105  # the name of a deed


def write_audit_to(folder: Path) -> None:
    """Append to a file of the data folder, one JSON object a line."""
    handler = logging.FileHandler(folder / AUDIT_FILE, encoding="utf-8", delay=True)
    handler.setFormatter(logging.Formatter("%(message)s"))
    log.addHandler(handler)
    log.setLevel(logging.INFO)
    log.propagate = False


def note(deed: str, **about: str | int) -> None:
    """Note a deed, with whoever is signed in and from where."""
    who: SignedIn | None = g.get("who")
    person, device = (who.person.id, who.device.id) if who else (None, None)
    line = {"at": parts().clock.text(), "deed": deed, "person": person, "device": device}
    log.info(_as_line({**line, "address": request.remote_addr, **about}))


def note_command(folder: Path, deed: str, **about: str | int) -> None:
    """Note what was done on the command line, where nobody is signed in."""
    line = {
        "at": iso_time(time.time_ns() // 1_000_000),
        "deed": deed,
        "person": None,
        "device": None,
        "address": "command line",
        **about,
    }
    with (folder / AUDIT_FILE).open("a", encoding="utf-8") as file:
        file.write(_as_line(line) + "\n")


def _as_line(line: Mapping[str, str | int | None]) -> str:
    """As JSON, so that nobody's name can forge a line."""
    return json.dumps(line, ensure_ascii=True)
