"""The log of deeds: who signed in, who was refused, who shut out whom; and nothing that should stay secret."""

import json
import logging
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from baycard.store.backup import AUDIT_FILE
from baycard.web.audit import NEW_SECRET, log, write_audit_to
from tests.support.server import InProcess, World, secret_of


@pytest.fixture
def audit(tmp_path: Path) -> Iterator[Path]:
    """The file that deeds are written to."""
    write_audit_to(tmp_path)
    yield tmp_path / AUDIT_FILE
    for handler in list(log.handlers):
        handler.close()
        log.removeHandler(handler)
    log.setLevel(logging.NOTSET)


def lines(audit: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in audit.read_text().splitlines()]


def test_every_sign_in_and_every_refusal_is_noted_without_the_secret(audit: Path, world: World) -> None:
    ines = world.sign_in("Ines Varga")
    wish = {"name": 'Ines"\n{"deed": "forged"}', "secret": "a-wrong-secret", "device_name": "x"}
    world.visitor().post("/api/people/sign-in", wish)
    text = audit.read_text()
    deeds = [line["deed"] for line in lines(audit)]
    assert deeds[-2:] == ["signed in", "sign-in refused"]
    assert lines(audit)[-2]["as_person"] == ines.person
    assert "a-wrong-secret" not in text and secret_of("Ines Varga") not in text


def test_shutting_out_is_noted_with_who_did_it(audit: Path, ines: InProcess, ruth: InProcess) -> None:
    ruth.post(f"/api/people/devices/{ines.device}/revoke")
    last = lines(audit)[-1]
    assert (last["deed"], last["person"], last["changed"]) == ("device revoked", ruth.person, ines.device)


def test_a_new_secret_is_noted_with_who_gave_it_and_without_the_secret(
    audit: Path, ines: InProcess, olga: InProcess
) -> None:
    olga.post(f"/api/people/{ines.person}/secret", {"secret": "goose-lamp-41"})
    last = lines(audit)[-1]
    assert (last["deed"], last["person"], last["changed"]) == (NEW_SECRET, olga.person, ines.person)
    assert "goose-lamp-41" not in audit.read_text()
