"""What goes wrong apart from the network: apps that die, clocks that jump, full disks, a server that is put back."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from tests.sync.handset import Handset
from tests.sync.material import START_MS

if TYPE_CHECKING:
    from tests.sync.fleet import Fleet

HOUR_MS = 3_600_000
JUMPS_MS = (HOUR_MS, -HOUR_MS, 24 * HOUR_MS, -24 * HOUR_MS)


def befall(fleet: "Fleet", mishap: str, handset: Handset) -> None:
    """Let something go wrong. What needs a running app does nothing while the app is closed."""
    happens, needs_app = MISHAPS[mishap]
    if handset.on or not needs_app:
        happens(fleet, handset)


def _app_dies(fleet: "Fleet", handset: Handset) -> None:
    handset.dies(fleet.dice.random())


def _app_dies_in_a_tap(fleet: "Fleet", handset: Handset) -> None:
    who = fleet.shop.crew[handset.number]
    fuse = fleet.dice.randint(0, 7)
    if fleet.dice.random() < 0.5:
        entry, blob, data = fleet.material.recording(who.person, who.device)
        fleet.ledger.blobs[blob["sha256"]] = (data, blob["mime"])
        handset.keep([entry], blob, fuse=fuse)
    else:
        handset.keep([fleet.material.entry(who.person, who.device) for _ in range(3)], fuse=fuse)


def _phone_off(fleet: "Fleet", handset: Handset) -> None:
    handset.dies(fleet.dice.random())
    handset.on = True  # so that the planned start finds nothing to do
    handset.life += 1
    handset.on = False


def _offline(fleet: "Fleet", handset: Handset) -> None:
    fleet.wire.offline_until[handset.number] = fleet.clock.now + fleet.dice.uniform(1, 60)


def _disk_full(fleet: "Fleet", handset: Handset) -> None:
    fleet.ledger.somebody_was_full = True
    handset.order("disk", full=True)
    handset.later(fleet.dice.uniform(1, 30), lambda: _discard(handset.order("disk", full=False)))


def _handle_dies(fleet: "Fleet", handset: Handset) -> None:
    handset.order("disk", closed_handles=fleet.dice.randint(1, 6))


def _clock_jumps(fleet: "Fleet", handset: Handset) -> None:
    jumped = fleet.dice.choice((*(handset.shift_ms + jump for jump in JUMPS_MS), -START_MS))
    handset.shift_ms = max(-START_MS, jumped)  # no clock goes back beyond 1970


def _server_restarts(fleet: "Fleet", _handset: Handset) -> None:
    fleet.shop.start()


def _server_away(fleet: "Fleet", _handset: Handset) -> None:
    fleet.wire.away_until = fleet.clock.now + fleet.dice.uniform(1, 60)


def _backup_and_restore(fleet: "Fleet", _handset: Handset) -> None:
    fleet.shop.back_up()
    fleet.clock.after(fleet.dice.uniform(1, fleet.options.seconds), lambda: _restore(fleet))


def _restore(fleet: "Fleet") -> None:
    if fleet.wire.good:
        return
    before = fleet.shop.known | fleet.shop.blobs
    fleet.shop.restore()
    fleet.ledger.lost_by_restore |= before - fleet.shop.known - fleet.shop.blobs


def _screen_off(fleet: "Fleet", handset: Handset) -> None:
    handset.tell({"is": "hidden"})
    handset.later(fleet.dice.uniform(1, 40), lambda: handset.tell({"is": "woke", "why": "focus"}))


def _discard(_answer: object) -> None:
    """For orders whose answer nobody needs."""


Happens = Callable[["Fleet", Handset], None]
MISHAPS: dict[str, tuple[Happens, bool]] = {
    "app dies": (_app_dies, True),
    "app dies in a tap": (_app_dies_in_a_tap, True),
    "phone off": (_phone_off, True),
    "offline": (_offline, False),
    "disk full": (_disk_full, True),
    "handle dies": (_handle_dies, True),
    "clock jumps": (_clock_jumps, False),
    "server restarts": (_server_restarts, False),
    "server away": (_server_away, False),
    "backup and restore": (_backup_and_restore, False),
    "screen off": (_screen_off, True),
}
