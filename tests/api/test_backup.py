"""Backups: made while the server works, proved, restored with a new epoch."""

import hashlib
from pathlib import Path

import pytest

from baycard.desk.check_revisions import check_revisions
from baycard.journal.digest import digest
from baycard.store import backup
from baycard.store.door import open_store, sqlite_url
from baycard.store.verify import check_store
from tests.support.photos import small_clean_jpeg
from tests.support.rescue import saved_file
from tests.support.server import InProcess, World


def faults(folder: Path) -> list[str]:
    store = open_store(sqlite_url(folder), folder)
    found = [*check_store(store), *check_revisions(store)]
    store.close()
    return found


@pytest.fixture
def busy(world: World, ines: InProcess, ruth: InProcess) -> World:
    """A world with a photo and a signed card."""
    card, data = ines.new_card(), small_clean_jpeg()
    entries = [card.fact(), card.photo(hashlib.sha256(data).hexdigest())]
    ines.push(entries)
    ines.put(hashlib.sha256(data).hexdigest(), data)
    ids = [entry["id"] for entry in entries]
    seen = {"count": 2, "digest": digest(ids), "drive": "yes"}
    assert ruth.post(f"/api/desk/cards/{card.card}/sign-off", seen).status == 200
    return world


def test_a_backup_of_a_working_server_is_whole_and_restores(busy: World, ines: InProcess, tmp_path: Path) -> None:
    backup.back_up(busy.settings.folder, tmp_path / "copy")
    assert faults(tmp_path / "copy") == []
    backup.restore(tmp_path / "copy", tmp_path / "again", 1_795_000_000)
    assert faults(tmp_path / "again") == []
    restored = World(tmp_path / "again")
    try:
        assert restored.sign_in("Ines Varga").pulled_ids() == ines.pulled_ids()
    finally:
        restored.store.close()


def test_a_restored_server_has_its_old_name_and_a_new_epoch_each_time(busy: World, tmp_path: Path) -> None:
    before = busy.visitor().get("/api/ping").json["server"]
    backup.back_up(busy.settings.folder, tmp_path / "copy")
    epochs = {before["epoch"]}
    for second in (1_795_000_000, 1_795_000_060):
        backup.restore(tmp_path / "copy", tmp_path / str(second), second)
        restored = World(tmp_path / str(second))
        server = restored.visitor().get("/api/ping").json["server"]
        restored.store.close()
        assert server["instance"] == before["instance"]
        epochs.add(server["epoch"])
    assert len(epochs) == 3


def test_what_was_sent_after_the_backup_is_taken_again_from_the_phone(
    busy: World, ines: InProcess, tmp_path: Path
) -> None:
    backup.back_up(busy.settings.folder, tmp_path / "copy")
    late = ines.new_card().readings(3)
    ines.push(late)
    backup.restore(tmp_path / "copy", tmp_path / "again", 1_795_000_000)
    restored = World(tmp_path / "again")
    results = restored.sign_in("Ines Varga", ines.device).push(late)
    restored.store.close()
    assert [result["outcome"] for result in results] == ["kept"] * 3


def test_a_phone_that_is_younger_than_the_backup_brings_its_work_back(busy: World, tmp_path: Path) -> None:
    backup.back_up(busy.settings.folder, tmp_path / "copy")
    young = busy.sign_in("Tom Abara")
    late = young.new_card().readings(3)
    young.push(late)
    backup.restore(tmp_path / "copy", tmp_path / "again", 1_795_000_000)
    restored = World(tmp_path / "again")
    again = restored.sign_in("Tom Abara", young.device)
    results = again.push(late)
    restored.store.close()
    assert again.device == young.device
    assert [result["outcome"] for result in results] == ["kept"] * 3


def test_what_a_phone_had_sent_that_is_gone_comes_back_from_one_that_had_fetched_it(
    busy: World, ines: InProcess, tmp_path: Path
) -> None:
    tom = busy.sign_in("Tom Abara")
    backup.back_up(busy.settings.folder, tmp_path / "copy")
    card = ines.new_card()
    first = card.reading(0.12)
    ines.push([first])
    ines.push([card.reading(0.34, replaces=(first["id"],)), card.handed_in()])
    held = [without_arrival(entry) for entry in tom.pull()["entries"] if entry["kind"] != "signed-off"]
    before = tom.pulled_ids()
    backup.restore(tmp_path / "copy", tmp_path / "again", 1_795_000_000)
    restored = World(tmp_path / "again")
    ruth = restored.sign_in("Ruth Okello")
    for kept in (3, 0):
        answer = ruth.call("POST", "/api/desk/rescue", saved_file(tom, held), {"Content-Type": "application/zip"})
        outcomes = [result["outcome"] for result in answer.json["results"]]
        assert (outcomes.count("kept"), outcomes.count("already-kept")) == (kept, len(held) - kept)
    assert ruth.pulled_ids() == before
    assert [without_arrival(entry) for entry in ruth.pull()["entries"] if entry["card"] == card.card] == held[-3:]
    restored.store.close()
    assert faults(tmp_path / "again") == []


def without_arrival(entry: dict[str, object]) -> dict[str, object]:
    return {name: value for name, value in entry.items() if name != "arrival"}


def test_a_photo_that_is_missing_or_changed_is_found(busy: World, ines: InProcess) -> None:
    name = hashlib.sha256(small_clean_jpeg()).hexdigest()
    path = busy.store.blobs.path(ines.workshop, name)
    path.write_bytes(b"other")
    assert faults(busy.settings.folder) == [f"image/jpeg {name} was changed."]
    path.unlink()
    assert faults(busy.settings.folder) == [f"image/jpeg {name} is missing."]


def test_one_changed_word_in_a_signed_card_is_found(busy: World) -> None:
    with busy.store.write() as tx:
        tx.exec_driver_sql("UPDATE entries SET body = '{\"value\":\"forged\"}' WHERE body LIKE '%TS 4711%'")
    (fault,) = faults(busy.settings.folder)
    assert "is not what was signed" in fault


def test_nothing_is_ever_written_over(busy: World, tmp_path: Path) -> None:
    data, copy = busy.settings.folder, tmp_path / "copy"
    backup.back_up(data, copy)
    with pytest.raises(backup.BackupError, match="not empty"):
        backup.back_up(data, copy)
    with pytest.raises(backup.BackupError, match="not empty"):
        backup.restore(copy, data, 0)
    with pytest.raises(backup.BackupError, match="holds no"):
        backup.restore(tmp_path / "nothing", tmp_path / "new", 0)
