"""A server whose disk is full or write-protected: a clear answer, no half batch, and it goes on when there is room."""

import hashlib
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from sqlalchemy import event

from tests.support.server import Answer, InProcess, World, furnish

Resize = Callable[[str], None]


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[tuple[Path, Resize]]:
    """A file system of 2 MB, and how to change it. Only root may mount one."""
    place = tmp_path / "small"
    place.mkdir()
    made = os.getuid() == 0 and _run("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", str(place))
    if not made:
        pytest.skip("a small file system can be mounted by root only")
    yield place, lambda how: _need(_run("mount", "-o", f"remount,{how}", str(place)))
    _need(_run("umount", "-l", str(place)))


def test_a_full_disk_is_said_and_leaves_no_half_batch(small_disk: tuple[Path, Resize]) -> None:
    place, resize = small_disk
    world, ines = _shop(place)
    kept: list[str] = []
    refused: list[dict[str, object]] = []
    answer = None
    for _ in range(200):
        refused = ines.new_card().readings(200)
        answer = ines.post("/api/sync/push", {"entries": refused})
        if answer.status != 200:
            break
        kept += [str(entry["id"]) for entry in refused]
    _says(answer, 507, "server-full")
    assert kept
    assert sorted(ines.pulled_ids()) == sorted(kept)
    resize("size=20m")
    assert {result["outcome"] for result in ines.push(refused)} == {"kept"}
    world.store.close()


def test_a_photo_that_found_the_disk_full_goes_on_when_there_is_room(small_disk: tuple[Path, Resize]) -> None:
    place, resize = small_disk
    world, ines = _shop(place)
    data = b"RIFF\x00\x00\x00\x00WAVE" + os.urandom(2_500_000)
    name = hashlib.sha256(data).hexdigest()
    _says(ines.put(name, data), 507, "server-full")
    assert ines.get(f"/api/blobs/{name}").status == 404
    resize("size=20m")
    held = int(ines.call("HEAD", f"/api/blobs/{name}").headers["Upload-Offset"])
    assert 0 < held < len(data)
    assert ines.put(name, data[held:], held, len(data)).status == 201
    assert ines.get(f"/api/blobs/{name}").data == data
    world.store.close()


def test_a_disk_that_cannot_be_written_is_said_and_nothing_is_half_there(small_disk: tuple[Path, Resize]) -> None:
    place, resize = small_disk
    world, ines = _shop(place)
    before = ines.new_card().readings(10)
    ines.push(before)
    world.store.engine.dispose()
    resize("ro")
    more = ines.new_card().readings(10)
    _says(ines.post("/api/sync/push", {"entries": more}), 503, "server-cannot-write")
    world.store.engine.dispose()
    resize("rw")
    assert sorted(ines.pulled_ids()) == sorted(str(entry["id"]) for entry in before)
    assert {result["outcome"] for result in ines.push(more)} == {"kept"}
    world.store.close()


def test_a_database_that_is_write_protected_is_said_while_reading_goes_on(tmp_path: Path) -> None:
    world, ines = _shop(tmp_path)
    before = ines.new_card().readings(3)
    ines.push(before)
    _protect(world, "ON")
    _says(ines.post("/api/sync/push", {"entries": ines.new_card().readings(3)}), 503, "server-cannot-write")
    assert len(ines.pulled_ids()) == len(before)
    _protect(world, "OFF")
    assert len(ines.push(ines.new_card().readings(3))) == 3
    world.store.close()


def _protect(world: World, how: str) -> None:
    """SQLite's own write protection, on every connection."""
    world.store.engine.dispose()
    event.listen(
        world.store.engine, "connect", lambda connection, _: connection.execute(f"PRAGMA query_only={how}") and None
    )


def _shop(place: Path) -> tuple[World, InProcess]:
    template = place / "data"
    furnish(template)
    world = World(template)
    return world, world.sign_in("Ines Varga")


def _says(answer: Answer | None, status: int, code: str) -> None:
    assert answer is not None
    assert (answer.status, answer.json["code"]) == (status, code)
    assert answer.json["title"].endswith(".")
    assert "device keeps" in answer.json["do"]


def _run(*command: str) -> bool:
    if shutil.which(command[0]) is None:
        return False
    return subprocess.run(command, check=False, capture_output=True).returncode == 0


def _need(done: bool) -> None:
    assert done
