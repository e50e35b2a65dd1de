"""Uploads whose wire breaks, stalls or is overtaken."""

import hashlib
import threading
from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path

import pytest

from baycard.store.door import Store, open_store, sqlite_url
from baycard.store.migrate import prepare
from baycard.store.values import Workshop
from baycard.store.workshops import add_workshop
from baycard.sync.upload import CHUNK_BYTES, Complete, Partial, Piece, Uploads, WrongOffset

SOUND = b"OggS\x00\x02" + bytes(range(256)) * 2000
NAME = hashlib.sha256(SOUND).hexdigest()


class Wire(BytesIO):
    """Bytes that arrive, with something that happens before the n-th read."""

    def __init__(self, data: bytes, number: int, happens: Callable[[], object]) -> None:
        super().__init__(data)
        self._left = number
        self._happens = happens

    def read(self, size: int | None = -1, /) -> bytes:
        self._left -= 1
        if self._left == 0:
            self._happens()
        return super().read(size)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = open_store(sqlite_url(tmp_path), tmp_path)
    prepare(made)
    with made.write() as tx:
        add_workshop(tx, Workshop("tern", "Tern Street Garage", "metric"))
        add_workshop(tx, Workshop("gull", "Gull Lane Motors", "metric"))
    yield made
    made.close()


@pytest.fixture
def uploads(store: Store) -> Uploads:
    return Uploads(store, lambda: "2026-11-20T09:00:00Z")


def piece(stream: BytesIO, offset: int = 0) -> Piece:
    return Piece("tern", NAME, offset, len(SOUND), stream)


def cut() -> None:
    raise ConnectionResetError


def test_what_came_before_the_wire_broke_is_kept_and_the_rest_completes_it(uploads: Uploads) -> None:
    assert uploads.append(piece(Wire(SOUND, 3, cut))) == Partial(2 * CHUNK_BYTES, len(SOUND))
    rest = uploads.append(piece(BytesIO(SOUND[2 * CHUNK_BYTES :]), 2 * CHUNK_BYTES))
    assert isinstance(rest, Complete)
    assert not rest.again


def test_asking_how_much_is_held_ends_a_request_that_still_runs(uploads: Uploads) -> None:
    told: list[object] = []
    wire = Wire(SOUND, 3, lambda: told.append(uploads.held("tern", NAME)))
    assert uploads.append(piece(wire)) == WrongOffset(2 * CHUNK_BYTES)
    assert told == [Partial(2 * CHUNK_BYTES, len(SOUND))]
    assert uploads.held("tern", NAME) == told[0]


def test_a_request_that_was_overtaken_spoils_nothing(store: Store, uploads: Uploads) -> None:
    def overtake() -> None:
        assert isinstance(uploads.append(piece(BytesIO(SOUND[CHUNK_BYTES:]), CHUNK_BYTES)), Complete)

    assert isinstance(uploads.append(piece(Wire(SOUND, 2, overtake))), WrongOffset)
    assert store.blobs.path("tern", NAME).read_bytes() == SOUND
    assert store.blobs.part("tern", NAME) is None


def test_many_phones_sending_one_blob_at_once_end_with_one_whole_blob(store: Store, uploads: Uploads) -> None:
    def send() -> None:
        offset = 0
        while True:
            answer = uploads.append(piece(BytesIO(SOUND[offset:]), offset))
            if isinstance(answer, Complete):
                return
            assert isinstance(answer, Partial | WrongOffset)
            offset = answer.offset

    threads = [threading.Thread(target=send) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=30)
    assert not any(thread.is_alive() for thread in threads)
    assert store.blobs.path("tern", NAME).read_bytes() == SOUND


def test_the_same_hash_in_two_workshops_is_two_uploads(uploads: Uploads) -> None:
    uploads.append(piece(Wire(SOUND, 2, cut)))
    assert uploads.held("gull", NAME) is None


def test_bytes_beyond_the_announced_length_are_not_read(uploads: Uploads) -> None:
    assert isinstance(uploads.append(piece(BytesIO(SOUND + b"more"))), Complete)
