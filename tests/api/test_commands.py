"""The command line, as whoever runs the server meets it."""

import io
import json
import shutil
import sys
from pathlib import Path

import pytest

from baycard.cli import main
from baycard.settings import Settings
from baycard.store.backup import AUDIT_FILE
from baycard.store.door import open_store, sqlite_url
from baycard.web.app import create_app
from baycard.web.audit import NEW_SECRET
from baycard.web.published import BookChangedError, publish_book
from tests.support.server import SMALL_BOOK, InProcess, World


def enter(monkeypatch: pytest.MonkeyPatch, folder: Path, secret: str, name: str = "Nia Reed") -> int:
    monkeypatch.setattr(sys, "stdin", io.StringIO(f"{secret}\n"))
    return main(["add-person", "--workshop", "Reed", "--name", name, "--role", "owner", "--data", str(folder)])


def test_a_person_who_was_entered_may_sign_in(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert enter(monkeypatch, tmp_path, "long-enough-secret") == 0
    store = open_store(sqlite_url(tmp_path), tmp_path)
    visitor = InProcess(create_app(Settings(tmp_path, sqlite_url(tmp_path)), store, SMALL_BOOK))
    wish = {"name": "Nia Reed", "secret": "long-enough-secret", "device_name": "desk"}
    assert visitor.post("/api/people/sign-in", wish).status == 200
    store.close()
    assert enter(monkeypatch, tmp_path, "long-enough-secret") == 1
    assert enter(monkeypatch, tmp_path, "short", "Max Reed") == 1


def test_whoever_runs_the_server_gives_a_new_secret_to_an_owner_who_forgot_it(
    template: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    data = shutil.copytree(template, tmp_path / "data")
    world = World(data)
    olga = world.sign_in("Olga Tern")

    def give(secret: str, workshop: str = "Tern Street Garage", name: str = "olga  tern") -> int:
        monkeypatch.setattr(sys, "stdin", io.StringIO(f"{secret}\n"))
        return main(["new-secret", "--workshop", workshop, "--name", name, "--data", str(data)])

    assert [give("short"), give("Olga Tern"), give("goose-lamp-41", "Nowhere"), give("goose-lamp-41", name="X")] == [
        1
    ] * 4
    assert "Tern Street Garage has nobody named X." in capsys.readouterr().err
    assert olga.get("/api/people/me").status == 200
    assert give("goose-lamp-41") == 0
    assert olga.get("/api/people/me").json["code"] == "not-signed-in"
    wish = {"name": "Olga Tern", "secret": "goose-lamp-41", "device_name": "desk"}
    assert olga.post("/api/people/sign-in", wish).json["person"]["id"] == olga.person
    noted = json.loads((data / AUDIT_FILE).read_text().splitlines()[-1])
    assert (noted["deed"], noted["changed"], noted["person"]) == (NEW_SECRET, olga.person, None)
    world.store.close()


def test_somebody_whom_a_restored_database_forgot_comes_back_under_the_id_that_stands_on_the_phone(
    template: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = shutil.copytree(template, tmp_path / "data")
    forgotten = "0c9ab3f0-0000-4000-8000-000000000007"
    person = ["add-person", "--workshop", "Tern Street Garage", "--name", "Nia Reed", "--role", "technician"]
    for id_, code in ((forgotten, 0), (forgotten, 1), ("nonsense", 1)):
        monkeypatch.setattr(sys, "stdin", io.StringIO("long-enough-secret\n"))
        assert main([*person, "--id", id_, "--data", str(data)]) == code
    assert main(["restored", "--data", str(data)]) == 0
    world = World(data)
    ines = world.sign_in("Ines Varga")
    assert ines.push([ines.new_card().fact(author=forgotten)])[0]["outcome"] == "kept"
    assert world.visitor().get("/api/ping").json["server"]["epoch"] > 1
    world.store.close()


def test_backup_verify_and_restore_say_what_they_did(
    template: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = str(shutil.copytree(template, tmp_path / "data"))
    assert main(["backup", str(tmp_path / "copy"), "--data", data]) == 0
    assert main(["verify", "--data", str(tmp_path / "copy")]) == 0
    assert main(["restore", str(tmp_path / "copy"), "--data", str(tmp_path / "new")]) == 0
    assert "Restored into" in capsys.readouterr().out
    assert main(["restore", str(tmp_path / "copy"), "--data", data]) == 1
    assert "is not empty" in capsys.readouterr().err
    assert main(["verify", "--data", str(tmp_path / "nothing")]) == 1


def test_a_restore_from_a_damaged_backup_is_refused(
    world: World, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with world.store.write() as tx:
        tx.exec_driver_sql(
            "INSERT INTO blobs SELECT id, 'ab', 'image/jpeg', 1, 1, 'cd', 1, 1, '' FROM workshops LIMIT 1"
        )
    assert main(["backup", str(tmp_path / "copy"), "--data", str(world.settings.folder)]) == 1
    assert main(["restore", str(tmp_path / "copy"), "--data", str(tmp_path / "new")]) == 1
    assert "image/jpeg ab is missing." in capsys.readouterr().out
    assert not (tmp_path / "new").exists()


def test_a_checklist_that_changed_under_its_version_stops_the_start(world: World) -> None:
    changed = SMALL_BOOK | {"checklists": [SMALL_BOOK["checklists"][0] | {"sha256": "d" * 64}]}
    with pytest.raises(BookChangedError, match="raise its version to 2"):
        publish_book(world.store, changed)
    raised = SMALL_BOOK | {"checklists": [SMALL_BOOK["checklists"][0] | {"sha256": "d" * 64, "version": 2}]}
    publish_book(world.store, raised)
    ines = world.sign_in("Ines Varga")
    assert [ines.get(f"/api/checklists/small-check/{n}").json["sha256"] for n in (1, 2)] == ["c" * 64, "d" * 64]
    assert ines.get("/api/checklists/small-check/3").status == 404
