"""Throws away what arrived of uploads that nobody went on with."""

from collections.abc import Callable
from threading import Lock

from baycard.store.blob_folder import BlobFolder

DAY_S = 86_400.0
# A part holds the bytes as they were sent, perhaps with the place where a photo was taken. A phone that comes back
# later than this sends its photo from the start.
ABANDONED_AFTER_S = 7 * DAY_S


class Abandoned:
    """Looks through the parts when the server starts, and once a day after that."""

    def __init__(self, folder: BlobFolder, now_s: Callable[[], float]) -> None:
        self._folder = folder
        self._now_s = now_s
        self._looked_at: float | None = None
        self._lock = Lock()

    def sweep(self) -> int:
        """Throw away the parts that have been left alone for a week, unless this was done today; gives how many."""
        now = self._now_s()
        with self._lock:
            # A clock that was put back must not stop this for good.
            if self._looked_at is not None and 0 <= now - self._looked_at < DAY_S:
                return 0
            self._looked_at = now
        return self._folder.drop_parts_before(now - ABANDONED_AFTER_S)
