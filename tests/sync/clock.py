"""The simulator's time: a heap of things that will happen, worked through one after another."""

import heapq
from collections.abc import Callable
from itertools import count

Deed = Callable[[], None]


class Clock:
    """Seconds since the simulation began. Things planned for the same moment happen in the order they were planned."""

    def __init__(self) -> None:
        self.now = 0.0
        self._heap: list[tuple[float, int, Deed]] = []
        self._numbers = count()

    def after(self, seconds: float, deed: Deed) -> None:
        """Plan something."""
        heapq.heappush(self._heap, (self.now + seconds, next(self._numbers), deed))

    def run_until(self, end: float) -> None:
        """Let everything happen that is due until then."""
        while self._heap and self._heap[0][0] <= end:
            self.now, _, deed = heapq.heappop(self._heap)
            deed()
        self.now = max(self.now, end)
