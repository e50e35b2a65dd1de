"""The network of the fleet: carries requests to the server and answers back, and does to them what the weather says."""

import base64
import json
import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from tests.sync.clock import Clock
from tests.sync.fragile_store import Killed
from tests.sync.options import Options
from tests.sync.shop import Answer, Shop

Request = dict[str, Any]
Reply = Callable[[Answer | None, str], None]

PORTAL = Answer(200, {"Content-Type": "text/html"}, b"<h1>Welcome to the network. Please agree.</h1>")
# The phone believes only a problem that names a server; which one is not looked at.
NAMED = {"instance": "simulated", "epoch": 0}
GATEWAY = Answer(502, {"Content-Type": "text/html"}, b"<h1>Bad gateway</h1>")
PROBLEMS = {
    "500": ("server-fault", 500),
    "503": ("server-busy", 503),
    "413": ("body-too-large", 413),
    "429": ("slow-down", 429),
    "401": ("not-signed-in", 401),
    "403": ("device-revoked", 403),
}


def problem(kind: str) -> Answer:
    """One of the server's own problems."""
    code, status = PROBLEMS[kind]
    headers = {"Content-Type": "application/problem+json", **({"Retry-After": "7"} if status == 429 else {})}
    said = {"server": NAMED, "code": code, "title": "Simulated.", "do": "Wait."}
    return Answer(status, headers, json.dumps(said).encode())


@dataclass(frozen=True)
class Trip:
    """A request on its way. part: the share of its body that arrives; fuse: the step at which the server dies of it."""

    phone: int
    request: Request
    delay: float = 0.0
    part: float = 1.0
    fuse: int | None = None

    @property
    def limit_s(self) -> float:
        """How long the phone waits for the answer."""
        return float(self.request["limit_ms"]) / 1000


def plain(reply: Reply) -> Callable[[Answer], None]:
    """The answer reaches the phone as the server gave it."""
    return lambda answer: reply(answer, "")


class Wire:
    """Between all phones and the one server."""

    def __init__(self, clock: Clock, shop: Shop, options: Options, dice: random.Random) -> None:
        self._clock, self._shop, self._options, self._dice = clock, shop, options, dice
        self.good = False
        self.away_until = 0.0
        self.dies_in = options.server_dies_at
        self.offline_until: dict[int, float] = {}
        self.last_trouble = 0.0
        self.arrived: Callable[[], None] = lambda: None

    def send(self, phone: int, request: Request, reply: Reply) -> None:
        """A phone sends a request; `reply` is called with an answer or with why there is none."""
        trip = Trip(phone, request)
        self._clock.after(trip.limit_s, lambda: reply(None, "time"))
        if self.offline_until.get(phone, 0.0) > self._clock.now:
            self._lose(trip, reply)
        else:
            self._befall(self._fate(), trip, reply)

    def _fate(self) -> str:
        if self.good or self._dice.random() >= self._options.faults:
            return "fine"
        return self._dice.choice(self._options.fates)

    def _befall(self, fate: str, trip: Trip, reply: Reply) -> None:
        match fate.split():
            case ["request", "lost"]:
                self._lose(trip, reply)
            case ["no", "answer"]:
                self._swallowed(trip)
            case ["answer", "lost"]:
                self._deliver(trip, lambda _answer: self._lose(trip, reply))
            case ["twice"]:
                self._deliver(trip, plain(reply))
                self._deliver(replace(trip, delay=self._dice.uniform(0, 30)), plain(reply))
            case ["late"]:
                self._swallowed(trip)
                self._deliver(replace(trip, delay=trip.limit_s + self._dice.uniform(0, 30)), plain(reply))
            case ["request", "cut"]:
                self._deliver(replace(trip, part=self._dice.random()), lambda _answer: self._lose(trip, reply))
            case ["answer", "cut"]:
                self._deliver(trip, lambda answer: reply(_cut(answer, self._dice.random()), ""))
            case ["login", "page"]:
                self._soon(lambda: reply(PORTAL, ""))
            case ["server", "dies"]:
                self._deliver(replace(trip, fuse=self._dice.randint(0, 8)), plain(reply))
            case [status, "after"]:
                self._deliver(trip, lambda _answer: reply(_made(status), ""))
            case [status, *_] if status.isdigit():
                self._soon(lambda: reply(_made(status), ""))
            case _:
                self._deliver(trip, plain(reply))

    def _deliver(self, trip: Trip, answered: Callable[[Answer], None]) -> None:
        self._clock.after(trip.delay + self._dice.uniform(0.005, 0.3), lambda: self._arrive(trip, answered))

    def _arrive(self, trip: Trip, answered: Callable[[Answer], None]) -> None:
        answer = GATEWAY
        if self.away_until <= self._clock.now:
            body = base64.b64decode(trip.request["body"])
            self._shop.fuse.left = self.dies_in if trip.fuse is None else trip.fuse
            try:
                answer = self._shop.ask(trip.phone, trip.request, body[: int(len(body) * trip.part)], len(body))
            except Killed:
                self.dies_in = None
                self._restart()
            self.dies_in = None if self.dies_in is None else self._shop.fuse.left
            self._shop.fuse.left = None
            self.arrived()
        self._soon(lambda: answered(answer))

    def _restart(self) -> None:
        self._shop.start()
        self.away_until = self._clock.now + (0.0 if self.good else self._dice.uniform(0, 10))

    def _soon(self, deed: Callable[[], None]) -> None:
        self._clock.after(self._dice.uniform(0.005, 0.3), deed)

    def _lose(self, trip: Trip, reply: Reply) -> None:
        """The connection breaks, at once or when nobody waits any longer."""
        if self._dice.random() < 0.7:
            self._soon(lambda: reply(None, "network"))
        else:
            self._swallowed(trip)

    def _swallowed(self, trip: Trip) -> None:
        self.last_trouble = max(self.last_trouble, self._clock.now + trip.limit_s)


def _made(kind: str) -> Answer:
    return GATEWAY if kind == "502" else problem(kind)


def _cut(answer: Answer, part: float) -> Answer:
    headers = {name: value for name, value in answer.headers.items() if name.lower() != "content-length"}
    return Answer(answer.status, headers, answer.body[: int(len(answer.body) * part)])
