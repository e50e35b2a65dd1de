"""The small picture that goes on paper: made when it is first asked for, from the photo that is kept."""

from pathlib import Path
from threading import Lock

from baycard.store.blob_folder import BlobFolder
from baycard.sync.clean_photo import print_size

SIZE = "print"
# A photo takes four bytes a pixel while it is made smaller; and two must not write one file.
_one_at_a_time = Lock()


def print_photo(folder: BlobFolder, workshop: str, sha256: str) -> Path | None:
    """Where the small picture of a kept photo lies; None when there is no such photo.

    A photo that is small enough as it is has no other.
    """
    path, photo = folder.path(workshop, sha256, SIZE), folder.path(workshop, sha256)
    if path.is_file():
        return path
    if not photo.is_file():
        return None
    with _one_at_a_time:
        return path if path.is_file() else _made(folder, workshop, sha256)


def _made(folder: BlobFolder, workshop: str, sha256: str) -> Path | None:
    photo = folder.path(workshop, sha256)
    data = photo.read_bytes()
    try:
        small = print_size(data)
    except (OSError, SyntaxError, ValueError):  # a sound, or a file that was damaged since
        return None
    if small is data:
        return photo
    folder.keep(workshop, sha256, small, SIZE)
    return folder.path(workshop, sha256, SIZE)
