"""Two clients over the same counted connection: Baycard's phone and the floor's."""

from __future__ import annotations

import gzip
import http.client
import json
import socket
import time
from collections.abc import Mapping
from typing import Any

from baycard.web.pushed import digest_of_batch
from tests.support.server import secret_of

BATCH = 500
PAGE = 1_000
REST_S = 10.0
ZIP_LEVEL = 6  # what browsers use
WORTH_ZIPPING_BYTES = 1_000
Entries = list[dict[str, object]]


class CountedSocket(socket.socket):
    """Counts what goes over it."""

    sent = 0
    received = 0

    def sendall(self, data: Any, flags: int = 0) -> None:
        self.sent += len(data)
        super().sendall(data, flags)

    def recv_into(self, *args: Any) -> int:
        count = super().recv_into(*args)
        self.received += count
        return count


class Wire:
    """One kept-alive connection; `traffic` and `requests` say what went over it, headers included.

    After a long rest it is opened anew, as a browser would: the server ends one that says nothing for half a minute.
    """

    def __init__(self, port: int) -> None:
        self.requests = 0
        self._port = port
        self._sent_before = self._received_before = 0
        self._open()

    def _open(self) -> None:
        self._socket = CountedSocket(socket.AF_INET, socket.SOCK_STREAM)
        self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._socket.connect(("127.0.0.1", self._port))
        self._connection = http.client.HTTPConnection("127.0.0.1", self._port)
        self._connection.sock = self._socket
        self._used_at = time.monotonic()

    def _wake(self) -> None:
        if time.monotonic() - self._used_at > REST_S:
            self._sent_before, self._received_before = self.sent, self.traffic - self.sent
            self.close()
            self._open()
        self._used_at = time.monotonic()

    @property
    def traffic(self) -> int:
        """Bytes both ways so far."""
        return self.sent + self._received_before + self._socket.received

    @property
    def sent(self) -> int:
        """Bytes sent."""
        return self._sent_before + self._socket.sent

    def call(self, method: str, path: str, body: bytes = b"", headers: Mapping[str, str] | None = None) -> Any:
        """Send a request; gives the JSON of the answer, or None for an empty one."""
        self._wake()
        self.requests += 1
        self._connection.request(method, path, body, {"Accept-Encoding": "gzip", **(headers or {})})
        answer = self._connection.getresponse()
        data = answer.read()
        self.cookie = (answer.headers.get("Set-Cookie") or "").split(";")[0]
        assert answer.status < 300, (answer.status, data[:300])
        if answer.headers.get("Content-Encoding") == "gzip":
            data = gzip.decompress(data)
        return json.loads(data) if data else None

    def send_part(self, method: str, path: str, part: bytes, length: int, headers: Mapping[str, str]) -> None:
        """Begin a request of `length` bytes and send only a part of them."""
        self._connection.putrequest(method, path, skip_accept_encoding=True)
        for name, value in {**headers, "Content-Length": str(length)}.items():
            self._connection.putheader(name, value)
        self._connection.endheaders()
        self._connection.send(part)

    def head(self, path: str, headers: Mapping[str, str]) -> int:
        """How many bytes of a blob are held."""
        self.requests += 1
        self._connection.request("HEAD", path, headers=dict(headers))
        answer = self._connection.getresponse()
        answer.read()
        return int(answer.headers.get("Upload-Offset") or 0)

    def close(self) -> None:
        """Close the connection."""
        self._connection.close()


class FloorClient:
    """The floor's client."""

    def __init__(self, port: int) -> None:
        self.wire = Wire(port)

    def push(self, entries: Entries, size: int = BATCH) -> None:
        """Push in batches."""
        for start in range(0, len(entries), size):
            self.wire.call("POST", "/push", *zipped({"entries": entries[start : start + size]}))

    def pull(self, after: int, count: int) -> int:
        """Pull `count` entries and the empty page behind them never; gives the cursor."""
        while count > 0:
            page = self.wire.call("GET", f"/pull?after={after}")
            after, count = page["cursor"], count - len(page["entries"])
        return after

    def idle(self, after: int) -> None:
        """A round with nothing to say."""
        assert self.wire.call("GET", f"/pull?after={after}")["entries"] == []

    def put(self, sha256: str, data: bytes) -> None:
        """Upload a photo."""
        self.wire.call("PUT", f"/blob/{sha256}", data)


class PhoneClient:
    """What the app sends, without the browser's own headers, which both would have."""

    def __init__(self, port: int) -> None:
        self.wire = Wire(port)
        wish = {"name": "Ines Varga", "secret": secret_of("Ines Varga"), "device_name": "bench", "device": None}
        self.headers = {"X-Baycard": "1"}
        body, headers = plain(wish)
        made = self.wire.call("POST", "/api/people/sign-in", body, self.headers | headers)
        self.headers["Cookie"] = self.wire.cookie
        self.author, self.device = made["person"]["id"], made["device"]["id"]

    def push(self, entries: Entries, size: int = BATCH) -> None:
        """Push in batches; every entry must be kept."""
        for start in range(0, len(entries), size):
            batch = entries[start : start + size]
            body, headers = zipped({"entries": batch})
            answer = self.wire.call("POST", "/api/sync/push", body, self.headers | headers)
            kept = sum(run["count"] for run in answer["results"] if run["outcome"] == "kept")
            assert (kept, answer["ids"]) == (len(batch), digest_of_batch(batch)), answer["results"][:3]

    def pull(self, after: int, count: int) -> int:
        """Pull `count` entries; gives the cursor."""
        while count > 0:
            page = self.wire.call("GET", f"/api/sync/pull?after={after}&limit={PAGE}", b"", self.headers)
            after, count = page["cursor"], count - len(page["entries"])
        return after

    def idle(self, after: int) -> None:
        """A round with nothing to say."""
        assert self.wire.call("GET", f"/api/sync/pull?after={after}&limit={PAGE}", b"", self.headers) is None

    def put(self, sha256: str, data: bytes) -> None:
        """Upload a photo."""
        self.wire.call("PUT", f"/api/blobs/{sha256}", data, self.headers)


def plain(value: object) -> tuple[bytes, dict[str, str]]:
    """A JSON body and its headers."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode(), {"Content-Type": "application/json"}


def zipped(value: object) -> tuple[bytes, dict[str, str]]:
    """A JSON body, compressed where that pays, and its headers."""
    body, headers = plain(value)
    if len(body) <= WORTH_ZIPPING_BYTES:
        return body, headers
    return gzip.compress(body, ZIP_LEVEL, mtime=0), {**headers, "Content-Encoding": "gzip"}
