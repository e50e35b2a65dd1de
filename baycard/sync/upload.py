"""Takes in the bytes of photos and sounds, piece by piece, and lets go of nothing that arrived."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from threading import Semaphore
from typing import BinaryIO

from baycard.store.blobs import add_blob, blob
from baycard.store.door import Store
from baycard.store.values import Blob
from baycard.sync.finish import Finished, Unfit, finish
from baycard.sync.turns import Turn, Turns

BLOB_BYTES_MAX = 25 * 1024 * 1024
# What is lost of an upload whose phone vanished without a word: a second of a slow link.
CHUNK_BYTES = 128 * 1024
# A photo takes four bytes a pixel while it is cleaned: many at once would fill the memory.
CLEANED_AT_ONCE = 2


@dataclass(frozen=True, slots=True)
class Piece:
    """One request: bytes from `offset` on, of a blob of `length` bytes, read from `stream`."""

    workshop: str
    sha256: str
    offset: int
    length: int
    stream: BinaryIO


@dataclass(frozen=True, slots=True)
class Complete:
    """The blob is held in full; `again` when it was before this request."""

    blob: Blob
    again: bool


@dataclass(frozen=True, slots=True)
class Partial:
    """So many bytes are held, of so many."""

    offset: int
    length: int


@dataclass(frozen=True, slots=True)
class WrongOffset:
    """The piece does not begin where what is held ends, or a newer request has taken over."""

    offset: int


Uploaded = Complete | Partial | WrongOffset | Unfit


class Uploads:
    """The uploads of this server: one writer per blob at a time, the newest request being the one."""

    def __init__(self, store: Store, now: Callable[[], str]) -> None:
        self._store = store
        self._now = now
        self._turns = Turns()
        self._cleaning = Semaphore(CLEANED_AT_ONCE)

    def held(self, workshop: str, sha256: str) -> Complete | Partial | None:
        """How much is held. Ends a request that is still writing, so that the number stays true."""
        with self._turns.take((workshop, sha256)):
            found = self._whole(workshop, sha256)
            if found:
                return Complete(found, again=True)
            part = self._store.blobs.part(workshop, sha256)
            return Partial(*part) if part else None

    def append(self, piece: Piece) -> Uploaded:
        """Append a piece and, when it was the last, check and keep the whole."""
        key = (piece.workshop, piece.sha256)
        with self._turns.take(key) as turn:
            begun = self._begin(piece)
        if begun is not None:
            return begun
        self._write(piece, turn)
        with turn.mine() as mine:
            if not mine:
                return WrongOffset(self._offset(piece))
            offset = self._offset(piece)
            return self._finish(piece) if offset == piece.length else Partial(offset, piece.length)

    def _whole(self, workshop: str, sha256: str) -> Blob | None:
        """What is held in full. A file that the disk lost is taken again, as if it had never come."""
        with self._store.read() as tx:
            found = blob(tx, workshop, sha256)
        return found if found and self._store.blobs.has(workshop, sha256) else None

    def _begin(self, piece: Piece) -> Uploaded | None:
        found = self._whole(piece.workshop, piece.sha256)
        if found:
            return Complete(found, again=True)
        part = self._store.blobs.part(piece.workshop, piece.sha256)
        offset = part[0] if part and part[1] == piece.length else 0
        return None if piece.offset == offset else WrongOffset(offset)

    def _write(self, piece: Piece, turn: Turn) -> None:
        # The lock is held for each write, never while waiting for bytes: a phone that vanished blocks nobody.
        left = piece.length - piece.offset
        while left > 0:
            chunk = _read(piece.stream, min(CHUNK_BYTES, left))
            with turn.mine() as mine:
                if not mine:
                    return
                with self._store.blobs.open_part(piece.workshop, piece.sha256, piece.length) as file:
                    file.write(chunk)
            if not chunk:
                return
            left -= len(chunk)

    def _offset(self, piece: Piece) -> int:
        part = self._store.blobs.part(piece.workshop, piece.sha256)
        return part[0] if part else 0

    def _finish(self, piece: Piece) -> Complete | Unfit:
        folder = self._store.blobs
        data = folder.read_part(piece.workshop, piece.sha256)
        if hashlib.sha256(data).hexdigest() == piece.sha256:
            with self._cleaning:
                made = finish(data)
        else:
            made = Unfit("hash-mismatch")
        if isinstance(made, Unfit):
            folder.drop_part(piece.workshop, piece.sha256)
            return made
        return self._keep(piece, made, data)

    def _keep(self, piece: Piece, made: Finished, sent: bytes) -> Complete:
        folder = self._store.blobs
        unchanged = made.data is sent
        if not (unchanged and folder.keep_part(piece.workshop, piece.sha256)):
            folder.keep(piece.workshop, piece.sha256, made.data)
        known = Blob(
            sha256=piece.sha256,
            mime=made.mime,
            sent_bytes=len(sent),
            stored_bytes=len(made.data),
            stored_sha256=piece.sha256 if unchanged else hashlib.sha256(made.data).hexdigest(),
            width=made.width,
            height=made.height,
        )
        with self._store.write() as tx:
            add_blob(tx, piece.workshop, known, self._now())
        # Last: should the power fail before, the phone's next request finds the part and finishes it again.
        folder.drop_part(piece.workshop, piece.sha256)
        return Complete(known, again=False)


def _read(stream: BinaryIO, size: int) -> bytes:
    try:
        return stream.read(size)
    except OSError:  # the phone is gone; what came before is kept
        return b""
