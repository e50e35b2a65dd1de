"""The log of who did what: signing in, shutting out, signing off, mailing. It holds no secrets, tokens or notes."""

import json
import logging
from pathlib import Path

from flask import g, request

from baycard.store.backup import AUDIT_FILE
from baycard.store.values import SignedIn
from baycard.web.parts import parts

log = logging.getLogger("baycard.audit")


def write_audit_to(folder: Path) -> None:
    """Append to a file of the data folder, one JSON object a line."""
    handler = logging.FileHandler(folder / AUDIT_FILE, encoding="utf-8", delay=True)
    handler.setFormatter(logging.Formatter("%(message)s"))
    log.addHandler(handler)
    log.setLevel(logging.INFO)
    log.propagate = False


def note(deed: str, **about: str | int) -> None:
    """Note a deed, with whoever is signed in and from where. As JSON, so that nobody's name can forge a line."""
    who: SignedIn | None = g.get("who")
    line = {
        "at": parts().clock.text(),
        "deed": deed,
        "person": who.person.id if who else None,
        "device": who.device.id if who else None,
        "address": request.remote_addr,
        **about,
    }
    log.info(json.dumps(line, ensure_ascii=True))
