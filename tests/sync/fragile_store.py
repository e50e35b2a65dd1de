"""The server's store with a fuse: at the chosen step of its work the process is gone."""

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, BinaryIO

from baycard.store.blob_folder import BlobFolder
from baycard.store.door import Store, Tx


class Killed(BaseException):
    """The server's process is gone in the middle of its work. Not an Exception: nobody may answer for it."""


class Fuse:
    """Counts the steps of the store; at the chosen one the process dies."""

    def __init__(self) -> None:
        self.left: int | None = None

    def step(self) -> None:
        """One more step."""
        if self.left is None:
            return
        self.left -= 1
        if self.left < 0:
            self.left = None
            raise Killed


class FragileFile(io.FileIO):
    """A file of which only half of a write may arrive."""

    fuse: Fuse

    def write(self, data: Any) -> int:
        """Write, or write half and die."""
        try:
            self.fuse.step()
        except Killed:
            super().write(bytes(data)[: len(data) // 2])
            raise
        return super().write(data) or 0


class FragileFolder(BlobFolder):
    """Blobs, with a step before and after each change."""

    def __init__(self, root: Path, fuse: Fuse) -> None:
        super().__init__(root)
        self._fuse = fuse

    def open_part(self, workshop: str, sha256: str, length: int) -> BinaryIO:
        """As the real one, with a file that may break."""
        super().open_part(workshop, sha256, length).close()
        file = FragileFile(self.root / workshop / "parts" / f"{sha256}.{length}", "ab")
        file.fuse = self._fuse
        return file

    def keep(self, workshop: str, sha256: str, data: bytes, size: str = "") -> None:
        """As the real one."""
        self._fuse.step()
        super().keep(workshop, sha256, data, size)
        self._fuse.step()

    def keep_part(self, workshop: str, sha256: str) -> bool:
        """As the real one."""
        self._fuse.step()
        kept = super().keep_part(workshop, sha256)
        self._fuse.step()
        return kept

    def drop_part(self, workshop: str, sha256: str) -> None:
        """As the real one."""
        self._fuse.step()
        super().drop_part(workshop, sha256)


class FragileStore(Store):
    """A store with a step before the work, before the commit and after it."""

    def __init__(self, real: Store, fuse: Fuse) -> None:
        super().__init__(real.engine, FragileFolder(real.blobs.root, fuse))
        self.fuse = fuse

    @contextmanager
    def write(self) -> Iterator[Tx]:
        """As the real one."""
        self.fuse.step()
        with super().write() as tx:
            yield tx
            self.fuse.step()
        self.fuse.step()
