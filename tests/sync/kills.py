"""The real server, killed as by a power cut while phones push and upload: what it confirmed is there, once, whole."""

import hashlib
import http.client
import random
import tempfile
import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.support.builders import CardBuilder
from tests.support.postgres import running_postgres
from tests.support.server import OverTheWire, RealServer, furnish, running_server

BATCH = 40
PIECE_BYTES = 60_000
SOUND_BYTES = 400_000
LONGEST_S = 60.0
GONE = (OSError, http.client.HTTPException)


@dataclass
class Confirmed:
    """What the server said it has, and all that was tried."""

    batches: list[list[dict[str, Any]]] = field(default_factory=list)
    ids: set[str] = field(default_factory=set)
    sounds: dict[str, bytes] = field(default_factory=dict)
    whole: set[str] = field(default_factory=set)
    some: threading.Event = field(default_factory=threading.Event)
    broken_in_push: int = 0
    broken_in_upload: int = 0


def kill_over_sqlite(folder: Path, rounds: int, dice: random.Random) -> Confirmed:
    """Many kills of a server that keeps everything in a folder."""
    furnish(folder)
    with running_server(folder) as server:
        return kill_many(server, rounds, dice)


def kill_over_postgres(rounds: int, dice: random.Random) -> Confirmed:
    """Many kills of a server that keeps its entries in PostgreSQL."""
    # Not below pytest's own folder: that one is closed to the user PostgreSQL runs as.
    with tempfile.TemporaryDirectory(prefix="baycard-pg-") as name, running_postgres(Path(name)) as url:
        folder = Path(name) / "data"
        folder.mkdir()
        furnish(folder, url)
        with running_server(folder, {"BAYCARD_DATABASE": url}) as server:
            return kill_many(server, rounds, dice)


def kill_many(server: RealServer, rounds: int, dice: random.Random) -> Confirmed:
    """Kill and restart the server so many times in the middle of work; checks after each that no promise is broken."""
    ines, tom = server.phone("Ines Varga"), server.phone("Tom Abara")
    confirmed = Confirmed()
    for left in reversed(range(rounds)):
        workers = [
            threading.Thread(target=_push_until_it_breaks, args=(ines, ines.new_card(), confirmed)),
            threading.Thread(target=_upload_until_it_breaks, args=(tom, confirmed, random.Random(dice.random()))),
        ]
        killer = threading.Timer(dice.uniform(0.02, 0.4), server.kill)
        for worker in workers:
            worker.start()
        if left == 0:  # however slow the machine is, the last kill comes after something was confirmed
            confirmed.some.wait(LONGEST_S)
        killer.start()
        for thread in (*workers, killer):
            thread.join()
        server.start()
        _check(ines, confirmed)
    _finish(ines, tom, confirmed)
    return confirmed


def _push_until_it_breaks(phone: OverTheWire, card: CardBuilder, confirmed: Confirmed) -> None:
    while True:
        batch = card.readings(BATCH)
        confirmed.batches.append(batch)
        try:
            confirmed.ids |= {result["id"] for result in phone.push(batch) if result["outcome"] == "kept"}
            confirmed.some.set()
        except GONE:
            confirmed.broken_in_push += 1
            return


def _upload_until_it_breaks(phone: OverTheWire, confirmed: Confirmed, dice: random.Random) -> None:
    while True:
        data = b"RIFF\x00\x00\x00\x00WAVE" + dice.randbytes(SOUND_BYTES)
        name = hashlib.sha256(data).hexdigest()
        confirmed.sounds[name] = data
        try:
            for offset in range(0, len(data), PIECE_BYTES):
                phone.put(name, data[offset : offset + PIECE_BYTES], offset, len(data))
            confirmed.whole.add(name)
        except GONE:
            confirmed.broken_in_upload += 1
            return


def _check(phone: OverTheWire, confirmed: Confirmed) -> None:
    ids = phone.pulled_ids()
    assert len(ids) == len(set(ids)), "nothing is there twice"
    assert confirmed.ids <= set(ids), "what was confirmed is there"
    there = set(ids)
    for batch in confirmed.batches:
        assert sum(entry["id"] in there for entry in batch) in {0, BATCH}, "no batch is there in part"
    for name in confirmed.whole:
        assert phone.call("HEAD", f"/api/blobs/{name}").headers["Upload-Complete"] == "?1"


def _finish(ines: OverTheWire, tom: OverTheWire, confirmed: Confirmed) -> None:
    """Send all of it once more, as phones do that never heard an answer."""
    for batch in confirmed.batches:
        assert {result["outcome"] for result in ines.push(batch)} <= {"kept", "already-kept"}
    everything = [entry["id"] for batch in confirmed.batches for entry in batch]
    assert sorted(ines.pulled_ids()) == sorted(everything)
    for name, data in confirmed.sounds.items():
        held = tom.call("HEAD", f"/api/blobs/{name}")
        offset = int(held.headers["Upload-Offset"]) if held.status == 200 else 0
        if held.headers.get("Upload-Complete") != "?1":
            assert tom.put(name, data[offset:], offset, len(data)).status == 201
        assert tom.get(f"/api/blobs/{name}").data == data
