"""A bound on how many answers may stay open, so that listeners never take the threads that take in work."""

from threading import Semaphore

OPEN_MAX = 24


class Streams:
    """Places for long answers."""

    def __init__(self, places: int = OPEN_MAX) -> None:
        self._places = Semaphore(places)

    def enter(self) -> bool:
        """Take a place, if one is free."""
        return self._places.acquire(blocking=False)

    def leave(self) -> None:
        """Give the place back."""
        self._places.release()
