"""Whose turn it is to write a blob: the newest request's. An older one finds out at its next write."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from weakref import WeakValueDictionary

Key = tuple[str, str]


class _Queue:
    def __init__(self) -> None:
        self.lock = Lock()
        self.newest = 0


class Turn:
    """A request's turn."""

    def __init__(self, queue: _Queue, number: int) -> None:
        self._queue = queue
        self._number = number

    @contextmanager
    def mine(self) -> Iterator[bool]:
        """Hold the lock; tells whether no newer request has come."""
        with self._queue.lock:
            yield self._queue.newest == self._number


class Turns:
    """The turns of all blobs."""

    def __init__(self) -> None:
        # A queue lives as long as a turn that knows it.
        self._queues: WeakValueDictionary[Key, _Queue] = WeakValueDictionary()
        self._lock = Lock()

    @contextmanager
    def take(self, key: Key) -> Iterator[Turn]:
        """Begin a turn, which ends those before it, and hold the lock."""
        with self._lock:
            queue = self._queues.get(key)
            if queue is None:
                queue = self._queues[key] = _Queue()
        with queue.lock:
            queue.newest += 1
            yield Turn(queue, queue.newest)
