"""Counts failed sign-ins, so that guessing is slow and nobody can lock a colleague out from another device."""

from collections import OrderedDict
from collections.abc import Callable
from threading import Lock

WINDOW_S = 15 * 60
FAILURES_PER_NAME_AND_ADDRESS = 10
FAILURES_PER_ADDRESS = 60
KEYS_MAX = 10_000


class Attempts:
    """Failed sign-ins of the last quarter of an hour, by address and by name at that address.

    now: seconds, from a clock that never goes back.
    """

    def __init__(self, now: Callable[[], float]) -> None:
        self._now = now
        self._failures: OrderedDict[tuple[str, str], list[float]] = OrderedDict()
        self._lock = Lock()

    def wait_s(self, name: str, address: str) -> int:
        """Seconds until this name may be tried from this address again; 0 = now."""
        with self._lock:
            return max(
                self._wait((name, address), FAILURES_PER_NAME_AND_ADDRESS),
                self._wait(("", address), FAILURES_PER_ADDRESS),
            )

    def failed(self, name: str, address: str) -> None:
        """Count a failure."""
        with self._lock:
            for key in ((name, address), ("", address)):
                self._failures.setdefault(key, []).append(self._now())
                self._failures.move_to_end(key)
            while len(self._failures) > KEYS_MAX:
                self._failures.popitem(last=False)

    def succeeded(self, name: str, address: str) -> None:
        """Forget the failures of this name at this address."""
        with self._lock:
            self._failures.pop((name, address), None)

    def forget(self, name: str) -> None:
        """Forget the failures of this name from everywhere: it has a new secret."""
        with self._lock:
            for key in [key for key in self._failures if key[0] == name]:
                del self._failures[key]

    def _wait(self, key: tuple[str, str], allowed: int) -> int:
        recent = [at for at in self._failures.get(key, []) if at > self._now() - WINDOW_S]
        if recent:
            self._failures[key] = recent
        if len(recent) < allowed:
            return 0
        return int(recent[-allowed] + WINDOW_S - self._now()) + 1
