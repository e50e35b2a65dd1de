"""One phone, two workshops: what waits for the one never reaches the other, by the real phone and the real server."""

import pytest

from tests.sync.fleet import Fleet
from tests.sync.handset import Handset
from tests.sync.node import Phones
from tests.sync.options import Options
from tests.sync.shop import Shop

CALM = {"phones": 1, "faults": 0.0, "mishap_count": 0, "stumbles": 0}
A_MINUTE_S = 60.0


@pytest.fixture
def fleet(fleet_table: tuple[Phones, Shop]) -> Fleet:
    """One phone with nothing on it, in good weather."""
    made = Fleet(*fleet_table, Options.of_seed(1, **CALM))
    made.wire.good = True
    made.handsets[0].on = True
    made.handsets[0].order("buy", seed=1, visible=True)
    made.clock.run_until(A_MINUTE_S)
    return made


def record_photos(fleet: Fleet, count: int) -> set[str]:
    """Keep so many photos and sounds on the phone; gives their names."""
    who, names = fleet.shop.crew[0], set()
    for _ in range(count):
        entry, blob, data = fleet.material.recording(who.person, who.device)
        fleet.ledger.blobs[blob["sha256"]] = (data, blob["mime"])
        names.add(blob["sha256"])
        fleet.handsets[0].keep([entry], blob)
    return names


def change_workshop(fleet: Fleet, cookie: str) -> None:
    """Somebody of the other workshop signs in and leaves the phone alone for a while."""
    fleet.shop.cookies[0] = cookie
    fleet.handsets[0].order("change-workshop")
    fleet.clock.run_until(fleet.clock.now + A_MINUTE_S)


def waits(handset: Handset) -> tuple[set[str], set[str]]:
    """The photos on the phone that are not sent, and the reasons why."""
    lines = handset.order("look")["value"]["waiting"]["blobs"]
    return {line["sha256"] for line in lines}, {(line["reason"] or {"code": ""})["code"] for line in lines}


@pytest.mark.parametrize("sent_before", [True, False], ids=["its entries were sent", "nothing was sent"])
def test_photos_that_wait_for_one_workshop_never_reach_another(fleet: Fleet, sent_before: bool) -> None:
    handset, at_home = fleet.handsets[0], fleet.shop.cookies[0]
    if sent_before:  # so that the server knows the cards
        who = fleet.shop.crew[0]
        for card in fleet.material.cards:
            handset.keep([fleet.material.entry(who.person, who.device) | {"card": card}])
        fleet.clock.run_until(fleet.clock.now + A_MINUTE_S)
    fleet.wire.offline_until[0] = fleet.clock.now + A_MINUTE_S
    photos = record_photos(fleet, 6)
    change_workshop(fleet, fleet.shop.neighbours_cookie)
    fleet.clock.run_until(fleet.clock.now + A_MINUTE_S)
    assert fleet.shop.at_the_neighbours() == set()
    assert waits(handset) == (photos, {"other-workshop" if sent_before else "unknown-author"})
    change_workshop(fleet, at_home)
    assert fleet.shop.blobs == photos
    assert waits(handset) == (set(), set())
    assert set(fleet.ledger.kept) <= fleet.shop.known
