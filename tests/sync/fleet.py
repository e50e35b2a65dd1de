"""The fleet: a few phones, one server, bad weather between them; played from a seed, held to every promise."""

import json
import random
from functools import partial
from typing import Any

from tests.sync.clock import Clock
from tests.sync.handset import Handset, Ledger, Stage
from tests.sync.material import START_MS, Material
from tests.sync.mishaps import befall
from tests.sync.node import Phones
from tests.sync.options import Options
from tests.sync.oracle import check_blob, check_refused, check_view, hold
from tests.sync.server_bugs import server_bug
from tests.sync.shop import Shop
from tests.sync.stumble import SAID, Stumble
from tests.sync.wire import Wire

OUTBOX_EMPTY_S = 60.0
# A phone that nobody tells of the better weather finds out with its next try, a minute later at most.
FINDS_OUT_S = 60.0
QUIET_S = 130.0
NEW_PHONE = 4
NOTHING = 204
TOO_LARGE = {"code": "body-too-large"}


class Fleet:
    """One run of one seed."""

    def __init__(self, phones: Phones, shop: Shop, options: Options) -> None:
        self.options, self.shop = options, shop
        self.dice = random.Random(f"fleet {options.seed}")
        self.clock = Clock()
        self.ledger = Ledger()
        shop.now_ms = lambda: START_MS + int(self.clock.now * 1000)
        shop.begin()
        phones.order(do="reset", bug=options.phone_bug, now=0)
        self.wire = Wire(self.clock, shop, options, self.dice)
        self.wire.arrived = self._spread_news
        self.stage = Stage(phones, self.clock, shop, self.wire)
        self.handsets = [Handset(number, self.stage, self.ledger) for number in range(options.phones)]
        self.material = Material(self.dice, self.handsets[0].now_ms)
        self.stumble = Stumble(options, self.ledger.stumbled_over)
        self._told = 0

    def play(self) -> None:
        """Work in bad weather, then good weather, then the checks. Raises BrokenPromiseError."""
        with server_bug(self.options.server_bug, self), self.stumble.under_way():
            self._work()
            self._heal()
            self._empties_in_time(frozenset(self.ledger.stumbled_over))
            self._mend()
            self._offer_refused()
            self._rest()
            self._check()

    def _work(self) -> None:
        for handset in self.handsets:
            handset.on = True
            handset.order("buy", seed=self.dice.randrange(2**32), visible=True)
            if self.options.phones_die_at is not None:
                handset.order("disk", fuse=self.options.phones_die_at)
        for _ in range(self.options.deeds):
            handset = self.dice.choice(self.handsets)
            self.clock.after(self._sometime(), partial(self._record, handset))
        if self.options.mishaps:
            for _ in range(self.options.mishap_count):
                mishap, handset = self.dice.choice(self.options.mishaps), self.dice.choice(self.handsets)
                self.clock.after(self._sometime(), partial(befall, self, mishap, handset))
        self.clock.run_until(self.options.seconds)

    def _record(self, handset: Handset) -> None:
        if not handset.on:
            return
        who = self.shop.crew[handset.number]
        chance = self.dice.random()
        if chance < 0.15:
            entry, blob, data = self.material.recording(who.person, who.device)
            self.ledger.blobs[blob["sha256"]] = (data, blob["mime"])
            handset.keep([entry], blob)
        elif chance < 0.18:
            entry = self.material.poison(who.person, who.device)
            self.ledger.poison.add(entry["id"])
            handset.keep([entry])
        else:
            many = 1 if chance < 0.8 else self.dice.randint(2, 6)
            entries = [self.material.entry(who.person, who.device) for _ in range(many)]
            for entry in entries:
                self.stumble.offer(entry)
            handset.keep(entries)

    def _heal(self) -> None:
        self.wire.good = True
        self.wire.away_until = 0.0
        self.wire.offline_until.clear()
        for handset in self.handsets:
            handset.starts()
            handset.order("disk", full=False, closed_handles=0)
            if self.options.told:
                handset.tell({"is": "woke", "why": "online"})

    def _empties_in_time(self, but: frozenset[str] = frozenset(), *, told: bool | None = None) -> None:
        end = max(self.clock.now, self.wire.last_trouble) + OUTBOX_EMPTY_S
        end += 0.0 if (self.options.told if told is None else told) else FINDS_OUT_S
        while self.clock.now < end and any(self._open(handset, but) for handset in self.handsets):
            self.clock.run_until(min(end, self.clock.now + 5.0))
        for handset in self.handsets:
            left = self._open(handset, but)
            hold(not left, f"all of {handset.name} is sent a minute after the trouble", handset.phase, left)

    def _open(self, handset: Handset, but: frozenset[str]) -> list[str]:
        """What is still to be sent, and of `but` what the person is not told of."""
        if handset.waiting == 0:
            return []
        view = handset.order("look")["value"]
        shown = {one["id"] for one in view["status"]["stuck"]} if handset.on else set()
        entries = set(view["queue"]["entry_ids"]) - (but & shown)
        return sorted(entries) + ["a photo or sound"] * view["queue"]["blobs"]

    def _mend(self) -> None:
        """What the server failed over waits on its phone, neither dropped nor refused, and goes once that is mended."""
        if not self.ledger.stumbled_over:
            return
        waits: set[str] = set()
        for handset in self.handsets:
            lines = handset.order("look")["value"]["waiting"]["entries"]
            # The weather may have refused it as too large, as any other; a failure of the server never does.
            waits |= {line["id"] for line in lines if (line["reason"] or TOO_LARGE)["code"] == TOO_LARGE["code"]}
        gone = (self.ledger.stumbled_over & set(self.ledger.kept)) - waits
        hold(not gone, "what the server fails over waits on its phone", sorted(gone))
        self.stumble.mend()
        self._empties_in_time(told=False)

    def _offer_refused(self) -> None:
        for handset in self.handsets:
            handset.order("offer-refused")

    def _rest(self) -> None:
        self.clock.run_until(self.clock.now + QUIET_S)

    def _check(self) -> None:
        mistakes = [fault for fault in self.shop.faults.seen if SAID not in fault]
        hold(not mistakes, "the server made no mistake", mistakes[:1])
        on_server = self._entries_on_server()
        ids = [entry["id"] for entry in on_server]
        hold(len(ids) == len(set(ids)), "the server holds nothing twice")
        for entry in on_server:
            id_ = entry["id"]
            hold(id_ in self.ledger.tried, "the server holds only what somebody recorded", entry)
            if id_ in self.ledger.kept:
                hold(entry == self.ledger.kept[id_], "what arrived is what was recorded", entry, self.ledger.kept[id_])
        lost = set(self.ledger.kept) - set(ids) - self.ledger.poison
        hold(not lost, "what a phone called kept is at the server", sorted(lost))
        on_phones: set[str] = set()
        for handset in self.handsets:
            view = handset.order("look")["value"]
            on_phones |= set(view["bytes_here"])
            check_view(handset.name, {**view, "entries": [_plain(entry) for entry in view["entries"]]}, on_server)
            check_refused(handset.name, view, self.ledger.poison)
        for entry in on_server:
            if entry["kind"] in {"photo", "sound"}:
                self._check_blob(entry["body"]["blob"], on_phones)
        if self.options.seed % 5 == 0:
            self._check_new_phone(on_server)

    def _check_new_phone(self, on_server: list[dict[str, Any]]) -> None:
        """A phone that comes out of its box has everything, too."""
        handset = Handset(NEW_PHONE, self.stage, self.ledger)
        handset.on = True
        handset.order("buy", seed=1, visible=True)
        self.clock.run_until(self.clock.now + OUTBOX_EMPTY_S)
        view = handset.order("look")["value"]
        check_view(handset.name, {**view, "entries": [_plain(entry) for entry in view["entries"]]}, on_server)

    def _check_blob(self, sha256: str, on_phones: set[str]) -> None:
        lost = self.ledger.lost_by_restore - self.shop.blobs - on_phones
        if self.ledger.somebody_was_full and sha256 in lost:
            return  # a full phone had let go of what the server held, and the server was put back to before that
        hold(sha256 in self.shop.blobs, "every photo and sound that an entry mentions is at the server", sha256)
        data, mime = self.ledger.blobs[sha256]
        check_blob(sha256, data, self.shop.blob_bytes(sha256), mime)

    def _entries_on_server(self) -> list[dict[str, Any]]:
        request = {"method": "GET", "path": "/api/sync/pull?after=0&limit=5000", "headers": {"X-Baycard": "1"}}
        answer = self.shop.ask(0, request, b"")
        # Where every phone was full from the start, nobody recorded anything.
        return [] if answer.status == NOTHING else [_plain(entry) for entry in json.loads(answer.body)["entries"]]

    def _sometime(self) -> float:
        return self.dice.uniform(0, self.options.seconds)

    def _spread_news(self) -> None:
        if len(self.shop.known) == self._told:
            return
        self._told = len(self.shop.known)
        for handset in self.handsets:
            if handset.listens and (self.wire.good or self.dice.random() < 0.7):
                handset.later(self.dice.uniform(0.01, 1.0), partial(_hear, handset))


def _hear(handset: Handset) -> None:
    if handset.listens:
        handset.order("news")


def _plain(entry: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in entry.items() if name != "arrival"}
