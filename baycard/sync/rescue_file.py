"""Reads the file to which a phone saved what it could not send. Only a file that is whole is read at all.

docs/formats.md section 4 says what is in it.
"""

import errno
import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, BinaryIO
from zipfile import ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from baycard.sync.strict_json import strict_json
from baycard.sync.upload import BLOB_BYTES_MAX

MARK = "baycard-rescue"
FORMATS_READ = (1,)
CONTENTS, ENTRIES = "baycard.json", "entries.jsonl"
CONTENTS_BYTES_MAX = 4 * 1024 * 1024
ENTRIES_BYTES_MAX = 64 * 1024 * 1024
ENTRIES_MAX = 20_000
ENCRYPTED = 1
CHUNK_BYTES = 256 * 1024
SHA256 = re.compile(r"[0-9a-f]{64}")
ZIP_START = b"PK\x03\x04"


class RescueFileError(ValueError):
    """The file cannot be taken in as a whole; `code` is one of the server's problems and says why."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class SavedBlob:
    """A photo or sound in the file; `card` is empty where the file does not say it."""

    sha256: str
    bytes: int
    file: str
    card: str


@dataclass(frozen=True, slots=True)
class Origin:
    """Where the file comes from; a phone that never met its server or is signed out leaves some empty."""

    server: str
    workshop: str
    device: str
    saved_at: str


class RescueFile:
    """A file that was found whole: every checksum in it is right.

    entries: JSON values of which nothing is known yet, oldest first.
    """

    def __init__(self, file: ZipFile, contents: dict[str, Any]) -> None:
        self._file = file
        self.origin = _origin(contents)
        self.entries = [_entry(line) for line in _lines(file, contents)]
        self.blobs = [_blob(raw) for raw in contents["blobs"]]
        for blob in self.blobs:
            self._check(blob)

    def open_blob(self, blob: SavedBlob) -> BinaryIO:
        """The bytes of a photo or sound."""
        opened: BinaryIO = self._file.open(blob.file)  # type: ignore[assignment]  # reads and seeks like one
        return opened

    def _check(self, blob: SavedBlob) -> None:
        if blob.bytes > BLOB_BYTES_MAX or self._file.getinfo(blob.file).file_size != blob.bytes:
            raise RescueFileError("rescue-damaged")
        with self.open_blob(blob) as stream:
            if _sha256(stream) != blob.sha256:
                raise RescueFileError("rescue-damaged")


def read_rescue_file(file: BinaryIO) -> RescueFile:
    """Read a file and check all of it. Raises RescueFileError when it is not whole, not ours or too new."""
    ours = file.read(len(ZIP_START)) == ZIP_START
    file.seek(0)
    try:
        return _read(ZipFile(file))
    except RescueFileError:
        raise
    # What zipfile, JSON and a wrong shape raise: whatever it was, the file is not as the phone wrote it.
    except (BadZipFile, NotImplementedError, EOFError, ValueError, RecursionError, KeyError, TypeError) as error:
        raise RescueFileError("rescue-damaged" if ours else "rescue-not-ours") from error
    except OSError as error:
        if error.errno != errno.EINVAL:  # the disk's own trouble
            raise
        # The listing is said to begin before the file does.
        raise RescueFileError("rescue-damaged" if ours else "rescue-not-ours") from error


def _read(file: ZipFile) -> RescueFile:
    members = {info.filename: info for info in file.infolist()}
    if CONTENTS not in members:
        raise RescueFileError("rescue-not-ours")
    _check_members(file.infolist(), members)
    contents = strict_json(file.read(CONTENTS))
    if not isinstance(contents, dict) or contents.get("is") != MARK:
        raise RescueFileError("rescue-not-ours")
    if contents["format"] not in FORMATS_READ:
        raise RescueFileError("rescue-newer")
    return RescueFile(file, contents)


def _check_members(infos: list[ZipInfo], members: dict[str, ZipInfo]) -> None:
    """Phones write plain members, each once: anything else could grow beyond measure when it is read."""
    plain = all(info.compress_type == ZIP_STORED and not info.flag_bits & ENCRYPTED for info in infos)
    if not plain or len(members) != len(infos) or members[CONTENTS].file_size > CONTENTS_BYTES_MAX:
        raise RescueFileError("rescue-damaged")


def _origin(contents: dict[str, Any]) -> Origin:
    return Origin(
        server=_id(contents["server"], "instance"),
        workshop=_id(contents["workshop"], "id"),
        device=_id(contents["device"], "id"),
        saved_at=str(contents["saved_at"]),
    )


def _id(raw: dict[str, object] | None, name: str) -> str:
    return "" if raw is None else str(raw[name])


def _lines(file: ZipFile, contents: dict[str, Any]) -> Iterator[bytes]:
    told = contents["entries"]
    if file.getinfo(ENTRIES).file_size > ENTRIES_BYTES_MAX or told["count"] > ENTRIES_MAX:
        raise RescueFileError("rescue-too-large")
    data = file.read(ENTRIES)
    lines = data.splitlines()
    if hashlib.sha256(data).hexdigest() != told["sha256"] or len(lines) != told["count"]:
        raise RescueFileError("rescue-damaged")
    return iter(lines)


def _entry(line: bytes) -> object:
    read = strict_json(line)
    if not isinstance(read, dict):
        raise RescueFileError("rescue-damaged")
    return read["entry"]


def _blob(raw: dict[str, Any]) -> SavedBlob:
    sha256, size, file = raw["sha256"], raw["bytes"], raw["file"]
    if not (isinstance(sha256, str) and SHA256.fullmatch(sha256) and isinstance(size, int) and isinstance(file, str)):
        raise RescueFileError("rescue-damaged")
    return SavedBlob(sha256, size, file, str(raw.get("card", "")))


def _sha256(stream: BinaryIO) -> str:
    made = hashlib.sha256()
    while chunk := stream.read(CHUNK_BYTES):
        made.update(chunk)
    return made.hexdigest()
