"""The real server process: killed in the middle of things, and with connections that break."""

import hashlib
import http.client
import random
import socket
import sys
import threading
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from baycard.web.serve import THREADS
from tests.support.builders import CardBuilder
from tests.support.photos import phone_jpeg
from tests.support.server import OURS, OverTheWire, RealServer

KEEPALIVE = "02"


def test_what_was_answered_as_kept_is_there_after_a_kill_in_mid_push(server: RealServer) -> None:
    chance = random.Random(4711)
    ines = server.phone("Ines Varga")
    card = ines.new_card()
    everything: list[dict[str, Any]] = []
    kept: set[str] = set()
    for _ in range(4):
        killer = threading.Timer(chance.uniform(0.02, 0.25), server.kill)
        killer.start()
        kept |= _push_until_it_breaks(ines, card, everything)
        killer.join()
        server.start()
        ids = ines.pulled_ids()
        assert kept <= set(ids)
        assert len(ids) == len(set(ids))
    results = [
        result for start in range(0, len(everything), 500) for result in ines.push(everything[start : start + 500])
    ]
    assert {result["outcome"] for result in results} <= {"kept", "already-kept"}
    assert sorted(ines.pulled_ids()) == sorted(entry["id"] for entry in everything)


def test_an_upload_goes_on_where_it_was_when_the_server_was_killed(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    data = phone_jpeg(size=(3000, 2200))
    name, piece = hashlib.sha256(data).hexdigest(), len(data) // 6
    sent = 0
    for number in range(20):
        answer = ines.put(name, data[sent : sent + piece], sent, len(data))
        assert answer.status in {201, 204}, answer.data
        if answer.status == 201:
            break
        sent = int(answer.headers["Upload-Offset"])
        if number % 2:
            server.kill()
            server.start()
            assert int(ines.call("HEAD", f"/api/blobs/{name}").headers["Upload-Offset"]) == sent
    assert ines.call("HEAD", f"/api/blobs/{name}").headers["Upload-Complete"] == "?1"
    assert ines.put(name, data).status == 200


def test_a_body_that_is_cut_leaves_what_arrived_and_goes_on_from_there(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    data = phone_jpeg(size=(3000, 2200))
    name, cut = hashlib.sha256(data).hexdigest(), len(data) // 2
    with _half_sent(ines, name, data, cut):
        pass
    offset = _held(server, ines, name)
    assert 0 < offset <= cut
    assert ines.put(name, data[offset:], offset, len(data)).status == 201
    assert ines.get(f"/api/blobs/{name}").status == 200


def test_a_half_open_upload_gives_way_to_a_new_one_at_once(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    data = phone_jpeg(size=(3000, 2200))
    name, cut = hashlib.sha256(data).hexdigest(), len(data) // 2
    with _half_sent(ines, name, data, cut) as old:
        offset = _held(server, ines, name)
        assert ines.put(name, data[offset:], offset, len(data)).status == 201
        # The request that had stalled goes on with its rest: too late, and without harm.
        with suppress(OSError):
            old.sendall(data[cut:])
            assert b" 201 " not in old.recv(200)
    kept = ines.get(f"/api/blobs/{name}")
    assert (kept.status, kept.data[:2]) == (200, b"\xff\xd8")
    assert ines.put(name, data).status == 200


@pytest.mark.parametrize(("signed_in", "status"), [(True, 200), (False, 401)], ids=["held already", "not signed in"])
def test_an_answer_that_needs_no_body_still_waits_for_it(server: RealServer, signed_in: bool, status: int) -> None:
    ines = server.phone("Ines Varga")
    data = phone_jpeg(size=(3000, 2200))
    name, cut = hashlib.sha256(data).hexdigest(), len(data) // 2
    assert ines.put(name, data).status == 201
    with _half_sent(ines if signed_in else OverTheWire(server.port), name, data, cut) as connection:
        connection.settimeout(0.3)
        with pytest.raises(TimeoutError):
            connection.recv(1)
        connection.settimeout(20)
        connection.sendall(data[cut:])
        assert connection.recv(200).startswith(f"HTTP/1.1 {status} ".encode())


def test_many_half_open_uploads_do_not_keep_others_out(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    data = phone_jpeg(size=(1600, 1200))
    stuck = [_half_sent(ines, f"{number:064x}", data, 100) for number in range(20)]
    try:
        assert ines.push([ines.new_card().fact()])[0]["outcome"] == "kept"
    finally:
        for connection in stuck:
            connection.close()


def test_strangers_who_never_send_what_they_announced_keep_nobody_out(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    doors = ("POST /api/people/sign-in", "POST /api/sync/push", f"PUT /api/blobs/{'a' * 64}", "GET /api/ping")
    stuck = [_stalls(server.port, door) for door in doors for _ in range(THREADS + 6)]
    try:
        assert ines.push([ines.new_card().fact()])[0]["outcome"] == "kept"
        assert OverTheWire(server.port).enter("Tom Abara").json["code"] == "server-busy"
    finally:
        for connection in stuck:
            connection.close()


@pytest.mark.skipif(sys.platform != "linux", reason="only there connections take this over from the listening socket")
def test_the_system_asks_after_phones_that_vanished_in_mid_upload(server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    with _half_sent(ines, "a" * 64, bytes(100), 10) as connection:
        mine = f":{connection.getsockname()[1]:04X}"
        deadline = time.monotonic() + 10
        while _timer_of(server.port, mine) != KEEPALIVE:
            assert time.monotonic() < deadline, "no timer asks whether the other side is alive"


def test_listeners_hear_of_an_arrival_and_cannot_use_up_the_server(server: RealServer) -> None:
    ines, tom = server.phone("Ines Varga"), server.phone("Tom Abara")
    listeners = [_listen(tom) for _ in range(30)]
    try:
        statuses = sorted(answer.status for _, answer in listeners)
        assert statuses == [200] * 24 + [503] * 6
        arrival = ines.push([ines.new_card().fact()])[0]["arrival"]
        answer = next(answer for _, answer in listeners if answer.status == 200)
        lines = (answer.readline() for _ in range(50))
        assert f'data: {{"arrival": {arrival}}}\n'.encode() in lines
    finally:
        for connection, _ in listeners:
            connection.close()


def _push_until_it_breaks(phone: OverTheWire, card: CardBuilder, everything: list[dict[str, Any]]) -> set[str]:
    kept: set[str] = set()
    while True:
        batch = card.readings(40)
        everything += batch
        try:
            kept |= {result["id"] for result in phone.push(batch) if result["outcome"] == "kept"}
        except (OSError, http.client.HTTPException):
            return kept


def _half_sent(phone: OverTheWire, name: str, data: bytes, cut: int) -> socket.socket:
    """An upload of which only a part was sent; the connection stays open."""
    connection = socket.create_connection(("127.0.0.1", phone.port), timeout=20)
    head = (
        f"PUT /api/blobs/{name} HTTP/1.1\r\nHost: 127.0.0.1:{phone.port}\r\nCookie: {phone.cookie}\r\nX-Baycard: 1\r\n"
        f"Upload-Offset: 0\r\nUpload-Length: {len(data)}\r\nContent-Length: {len(data)}\r\n\r\n"
    )
    connection.sendall(head.encode() + data[:cut])
    return connection


def _timer_of(port: int, other_end: str) -> str:
    """Which timer runs for the server's end of a connection, as Linux lists it."""
    rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    ours = (row for row in rows if row[1].endswith(f":{port:04X}") and row[2].endswith(other_end))
    return next((row[5].split(":")[0] for row in ours), "")


def _stalls(port: int, door: str) -> socket.socket:
    """A request of nobody in particular whose body does not come."""
    connection = socket.create_connection(("127.0.0.1", port), timeout=20)
    head = (
        f"{door} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nX-Baycard: 1\r\n"
        "Content-Type: application/json\r\nContent-Encoding: gzip\r\nContent-Length: 500\r\n\r\n"
    )
    connection.sendall(head.encode() + b"\x1f")
    return connection


def _held(server: RealServer, phone: OverTheWire, name: str) -> int:
    """How much is held; asked once the first bytes have arrived, as asking ends a request that still runs."""
    deadline = time.monotonic() + 10
    while not any(part.stat().st_size for part in server.folder.glob(f"blobs/*/parts/{name}.*")):
        assert time.monotonic() < deadline, "nothing arrived"
    return int(phone.call("HEAD", f"/api/blobs/{name}").headers["Upload-Offset"])


def _listen(phone: OverTheWire) -> tuple[http.client.HTTPConnection, http.client.HTTPResponse]:
    connection = http.client.HTTPConnection("127.0.0.1", phone.port, timeout=20)
    connection.request("GET", "/api/events?after=0", headers={**OURS, "Cookie": phone.cookie})
    return connection, connection.getresponse()
