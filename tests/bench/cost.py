"""What equal tasks cost on one of two servers."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.bench.process import Served
from tests.bench.wire import FloorClient, PhoneClient

Client = FloorClient | PhoneClient


@dataclass
class Side:
    """One of the two servers with its client, and how far it is."""

    name: str
    served: Served
    client: Client
    author: str
    device: str
    cursor: int = 0


@dataclass
class Cost:
    """What a number of equal tasks took; CPU is that of the server, traffic is bytes both ways."""

    wall_s: list[float] = field(default_factory=list)
    cpu_s: float = 0.0
    traffic: int = 0
    sent: int = 0
    requests: int = 0

    def add(self, side: Side, task: Callable[[], object]) -> None:
        """Do a task and count it."""
        wire = side.client.wire
        cpu, traffic, sent, requests = side.served.cpu_s(), wire.traffic, wire.sent, wire.requests
        begun = time.perf_counter()
        task()
        self.wall_s.append(time.perf_counter() - begun)
        self.cpu_s += side.served.cpu_s() - cpu
        self.traffic += wire.traffic - traffic
        self.sent += wire.sent - sent
        self.requests += wire.requests - requests

    @property
    def times(self) -> int:
        """How many tasks."""
        return len(self.wall_s)
