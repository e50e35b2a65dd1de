"""A phone as the simulator sees it: gives orders to the real one in Node, passes requests on, checks each step."""

import base64
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from tests.sync.clock import Clock
from tests.sync.material import START_MS
from tests.sync.node import Phones
from tests.sync.oracle import hold
from tests.sync.shop import Answer, Shop
from tests.sync.wire import Request, Wire

Order = dict[str, Any]
READ_HEADERS = frozenset({"Content-Type", "Retry-After", "X-Baycard-Server"})


@dataclass(frozen=True)
class Stage:
    """What all phones of a run have in common."""

    phones: Phones
    clock: Clock
    shop: Shop
    wire: Wire


@dataclass
class Ledger:
    """What the people were told, and what they tried: the measure of every promise."""

    kept: dict[str, dict[str, Any]] = field(default_factory=dict)
    tried: dict[str, dict[str, Any]] = field(default_factory=dict)
    poison: set[str] = field(default_factory=set)
    stumbled_over: set[str] = field(default_factory=set)
    blobs: dict[str, tuple[bytes, str]] = field(default_factory=dict)
    lost_by_restore: set[str] = field(default_factory=set)
    somebody_was_full: bool = False


class Handset:
    """One phone of the fleet."""

    def __init__(self, number: int, stage: Stage, ledger: Ledger) -> None:
        self.number, self.name = number, f"phone {number}"
        self.on = False
        self.shift_ms = 0
        self.phase = "off"
        self.waiting = 0
        self.listens = False
        self.life = 0
        self._phones, self._clock, self._shop, self._wire = stage.phones, stage.clock, stage.shop, stage.wire
        self._ledger = ledger
        self._timer: list[int] | None = None

    def now_ms(self) -> int:
        """The time as this phone believes it to be."""
        return START_MS + int(self._clock.now * 1000) + self.shift_ms

    def order(self, do: str, **more: Any) -> dict[str, Any]:
        """Give an order and take in all that follows from it."""
        answer = self._phones.order(do=do, phone=self.name, now=self.now_ms(), **more)
        self._check(answer)
        for entry in answer["kept"]:
            self._ledger.kept[entry["id"]] = entry
            self._ledger.tried[entry["id"]] = entry
        for request in answer["requests"]:
            self._send(request)
        self._set_timer(answer["timer"])
        self.waiting, self.listens = answer["waiting"], answer["listens"]
        if answer["dead"]:
            self.dies(0.5)
        elif answer["phase"] != self.phase:
            self.phase = answer["phase"]
            if self.phase == "sign-in-needed":
                self.later(8.0, lambda: self.tell({"is": "signed-in"}))
        return answer

    def tell(self, event: Order) -> None:
        """Something happens to the app."""
        self.order("tell", event=event)

    def keep(self, entries: list[dict[str, Any]], blob: dict[str, str] | None = None, fuse: int | None = None) -> None:
        """A tap."""
        for entry in entries:
            self._ledger.tried.setdefault(entry["id"], entry)
        self.order("keep", entries=entries, blob=blob, fuse=fuse)

    def dies(self, luck: float) -> None:
        """The app is killed and comes back a little later."""
        self.on = False
        self.life += 1
        self._timer = None
        self.order("dies", luck=luck)
        self._clock.after(3.0, self.starts)

    def starts(self) -> None:
        """The app is opened."""
        if not self.on:
            self.on = True
            self.order("start", visible=True)

    def later(self, seconds: float, deed: Callable[[], None]) -> None:
        """Plan something for this life of the app."""
        life = self.life
        self._clock.after(seconds, lambda: deed() if self.on and life == self.life else None)

    def _check(self, answer: dict[str, Any]) -> None:
        known = self._shop.known | self._ledger.lost_by_restore
        early = set(answer["sent"]) - known
        hold(not early, f"{self.name} shows nothing as sent that the server lacks", sorted(early))
        early = set(answer["sent_blobs"]) - self._shop.blobs - self._ledger.lost_by_restore
        hold(not early, f"{self.name} shows no photo or sound as sent that the server lacks", sorted(early))

    def _send(self, request: Request) -> None:
        life, call, open_ = self.life, request["call"], [True]

        def reply(answer: Answer | None, why: str) -> None:
            if not open_ or not self.on or life != self.life:
                return
            open_.clear()
            if answer is None:
                self.order("break", call=call, why=why)
            else:
                self.order("answer", call=call, **_for_node(answer))

        self._wire.send(self.number, request, reply)

    def _set_timer(self, timer: list[int] | None) -> None:
        if timer == self._timer:
            return
        self._timer = timer
        if timer is not None:
            self.later(timer[1] / 1000, lambda: self._ring(timer))

    def _ring(self, timer: list[int]) -> None:
        if self._timer == timer:
            self._timer = None
            self.order("ring")


def _for_node(answer: Answer) -> Order:
    headers = {
        name: value for name, value in answer.headers.items() if name in READ_HEADERS or name.startswith("Upload")
    }
    return {"status": answer.status, "headers": headers, "body": base64.b64encode(answer.body).decode()}
