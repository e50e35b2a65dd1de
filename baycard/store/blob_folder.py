"""The folder of photos and sounds: one file per hash and workshop, and partial files that grow by appending."""

import hashlib
import os
from pathlib import Path
from typing import BinaryIO

PARTS = "parts"


class BlobFolder:
    """Files below `root`. Callers hold the lock of a hash while they change its partial file."""

    def __init__(self, root: Path) -> None:
        self.root = root

    def path(self, workshop: str, sha256: str, size: str = "") -> Path:
        """Where the finished file lies; `size` names a smaller picture made from it."""
        return self.root / workshop / sha256[:2] / (f"{sha256}.{size}" if size else sha256)

    def has(self, workshop: str, sha256: str) -> bool:
        """Whether the finished file is there: a row alone does not bring a photo back."""
        return self.path(workshop, sha256).is_file()

    def part(self, workshop: str, sha256: str) -> tuple[int, int] | None:
        """Bytes held and bytes promised of a partial file."""
        found = self._part_path(workshop, sha256)
        return (found.stat().st_size, int(found.suffix[1:])) if found else None

    def open_part(self, workshop: str, sha256: str, length: int) -> BinaryIO:
        """Open the partial file for appending; a partial file of another promised length is thrown away."""
        folder = self._parts(workshop)
        wanted = folder / f"{sha256}.{length}"
        if not wanted.exists():
            folder.mkdir(parents=True, exist_ok=True)
            self.drop_part(workshop, sha256)
        return wanted.open("ab")

    def read_part(self, workshop: str, sha256: str) -> bytes:
        """The bytes of a partial file, forced to the disk first."""
        found = self._part_path(workshop, sha256)
        if found is None:
            return b""
        with found.open("rb") as file:
            os.fsync(file.fileno())
            return file.read()

    def drop_part(self, workshop: str, sha256: str) -> None:
        """Throw the partial file away, if there is one."""
        found = self._part_path(workshop, sha256)
        if found:
            found.unlink(missing_ok=True)

    def drop_parts_before(self, moment_s: float) -> int:
        """Throw away the partial files of all workshops to which nothing was added since a moment; gives how many.

        moment_s: seconds since 1970.
        """
        return sum(_dropped(part, moment_s) for part in self.root.glob(f"*/{PARTS}/*"))

    def keep(self, workshop: str, sha256: str, data: bytes, size: str = "") -> None:
        """Write a finished file."""
        write_whole(self.path(workshop, sha256, size), data)

    def keep_part(self, workshop: str, sha256: str) -> bool:
        """Let the partial file, already on the disk, be the finished one too: its bytes are not written a second time.

        The part stays until it is dropped. False without a part, and where a file can have no second name.
        """
        part, target = self._part_path(workshop, sha256), self.path(workshop, sha256)
        if part is None:
            return False
        target.parent.mkdir(parents=True, exist_ok=True)
        draft = target.with_name(f"{target.name}.draft")
        draft.unlink(missing_ok=True)
        try:
            os.link(part, draft)
        except OSError:
            return False
        draft.replace(target)
        draft.unlink(missing_ok=True)  # it stays when both were names of one file already
        _sync_folder(target.parent)
        return True

    def _part_path(self, workshop: str, sha256: str) -> Path | None:
        try:
            parts = list(self._parts(workshop).iterdir())
        except FileNotFoundError:
            return None
        return next((part for part in parts if part.name.startswith(f"{sha256}.")), None)

    def _parts(self, workshop: str) -> Path:
        return self.root / workshop / PARTS


def _dropped(part: Path, moment_s: float) -> bool:
    try:
        if part.stat().st_mtime >= moment_s:
            return False
        part.unlink()
    except FileNotFoundError:  # finished meanwhile
        return False
    return True


def write_whole(target: Path, data: bytes) -> None:
    """Write a file so that it is on the disk in full or not at all, whatever happens meanwhile."""
    target.parent.mkdir(parents=True, exist_ok=True)
    draft = target.with_name(f"{target.name}.draft")
    with draft.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    draft.replace(target)
    _sync_folder(target.parent)


def sha256_of(path: Path) -> str:
    """The SHA-256 of a file, in hex."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
