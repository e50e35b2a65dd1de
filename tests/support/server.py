"""The server for tests: in this process, or as a real process that can be killed and started again."""

import http.client
import json
import os
import signal
import socket
import subprocess
import sys
import time
from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import Flask
from werkzeug.datastructures import Headers
from werkzeug.test import TestResponse

from baycard.people.admit import add_person, add_workshop
from baycard.settings import Settings
from baycard.store.door import Store, open_store, sqlite_url
from baycard.store.migrate import prepare
from baycard.store.values import Person, Role
from baycard.web.app import create_app
from baycard.web.pushed import digest_of_batch
from tests.support.builders import CardBuilder, Json

OURS = {"X-Baycard": "1"}
JSON = {"Content-Type": "application/json"}
START_S = 60.0
SECRET = "the-secret-of-"
PEOPLE: Mapping[str, tuple[tuple[str, Role], ...]] = {
    "Tern Street Garage": (
        ("Ines Varga", "technician"),
        ("Tom Abara", "technician"),
        ("Ruth Okello", "foreman"),
        ("Olga Tern", "owner"),
    ),
    "Gull Lane Motors": (("Piet Gull", "technician"), ("Fay Gull", "foreman"), ("Otto Gull", "owner")),
}
SMALL_BOOK: dict[str, Any] = {
    "format": 1,
    "sha256": "b" * 64,
    "units": {"atoms": {}, "prefixes": {}},
    "instruments": {},
    "cautions": {},
    "stations": [],
    "places": {},
    "methods": {},
    "checklists": [
        {
            "id": "small-check",
            "version": 1,
            "sha256": "c" * 64,
            "title": "Small check",
            "why": "",
            "not_instead_of": "",
            "cautions": [],
            "tools": [],
            "stations": [],
            "checks": [],
        }
    ],
}


def secret_of(name: str) -> str:
    """The secret of one of the invented people."""
    return SECRET + name.split(maxsplit=1)[0].lower()


def furnish(folder: Path, url: str | None = None) -> None:
    """A data folder, or another database, with two workshops and their people."""
    store = open_store(url or sqlite_url(folder), folder)
    prepare(store)
    for workshop, people in PEOPLE.items():
        made = add_workshop(store, workshop)
        for name, role in people:
            person = add_person(store, made.id, name, role, secret_of(name))
            assert isinstance(person, Person)
    store.close()


class World:
    """An app over a furnished folder, with another workshop already at work in it."""

    def __init__(self, folder: Path, book: Mapping[str, Any] | None = None) -> None:
        self.settings = Settings(folder, sqlite_url(folder), mail_folder=folder / "mail", news_life_s=0.0)
        self.store: Store = open_store(self.settings.database, folder)
        self.app: Flask = create_app(self.settings, self.store, book or SMALL_BOOK)
        self.neighbour = self.sign_in("Piet Gull")
        self.noise = self.neighbour.new_card()
        self.neighbour.push([self.noise.fact("GULL 1"), self.noise.reading(9.99)])

    def visitor(self) -> "InProcess":
        """Somebody who is not signed in."""
        return InProcess(self.app)

    def sign_in(self, name: str, device: str | None = None) -> "InProcess":
        """A person of the scenario, signed in on a device of their own or on the given one."""
        visitor = self.visitor()
        visitor.enter(name, device)
        return visitor


@dataclass(frozen=True)
class Answer:
    """What came back."""

    status: int
    headers: Headers
    data: bytes

    @property
    def json(self) -> Any:
        """The body read as JSON."""
        return json.loads(self.data)


def results_of_each(entries: Sequence[object], runs: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """The runs of outcomes of a push as one result an entry, with its id and arrival number."""
    assert sum(run["count"] for run in runs) == len(entries)
    ids = (entry.get("id") if isinstance(entry, dict) else "" for entry in entries)
    return [_result(run, next(ids), place) for run in runs for place in range(run["count"])]


def _result(run: dict[str, Any], id_: object, place: int) -> dict[str, Any]:
    result = {"id": id_, **{name: value for name, value in run.items() if name != "count"}}
    return result | {"arrival": run["arrival"] + place} if "arrival" in run else result


class Phone(ABC):
    """A signed-in device: what the app does, in sentences."""

    person: str
    device: str
    workshop: str

    @abstractmethod
    def call(self, method: str, path: str, data: bytes = b"", headers: Mapping[str, str] | None = None) -> Answer:
        """Send one request with the session's cookie and the app's header."""

    def enter(self, name: str, device: str | None = None) -> Answer:
        """Sign in."""
        wish = {"name": name, "secret": secret_of(name), "device_name": f"phone of {name}", "device": device}
        answer = self.post("/api/people/sign-in", wish)
        if answer.status == 200:
            self.person = answer.json["person"]["id"]
            self.device = answer.json["device"]["id"]
            self.workshop = answer.json["workshop"]["id"]
        return answer

    def get(self, path: str, headers: Mapping[str, str] | None = None) -> Answer:
        """GET."""
        return self.call("GET", path, headers=headers)

    def post(self, path: str, value: object = None) -> Answer:
        """POST JSON."""
        return self.call("POST", path, json.dumps(value or {}).encode(), JSON)

    def push(self, entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
        """Push a batch; gives the results."""
        answer = self.post("/api/sync/push", {"entries": entries})
        assert answer.status == 200, answer.data
        assert answer.json["ids"] == digest_of_batch(entries)
        return results_of_each(entries, answer.json["results"])

    def pull(self, after: int = 0, limit: int = 1000) -> dict[str, Any]:
        """Pull one page."""
        answer = self.get(f"/api/sync/pull?after={after}&limit={limit}")
        if answer.status == 204:
            return {"entries": [], "cursor": after, "more": False}
        assert answer.status == 200, answer.data
        page: dict[str, Any] = answer.json
        return page

    def pulled_ids(self) -> list[str]:
        """The ids of everything the server hands out, page by page."""
        ids: list[str] = []
        after, more = 0, True
        while more:
            page = self.pull(after)
            ids += [entry["id"] for entry in page["entries"]]
            after, more = page["cursor"], page["more"]
        return ids

    def put(
        self, sha256: str, data: bytes, offset: int = 0, length: int | None = None, of: Json | None = None
    ) -> Answer:
        """Upload a piece of a blob, `of` being the entry that mentions it."""
        headers = {
            "Upload-Offset": str(offset),
            "Upload-Length": str(len(data) + offset if length is None else length),
            "Content-Type": "application/octet-stream",
            **({} if of is None else {"X-Baycard-Card": of["card"], "X-Baycard-Author": of["author"]}),
        }
        return self.call("PUT", f"/api/blobs/{sha256}", data, headers)

    def new_card(self) -> CardBuilder:
        """A new card, written by this person on this device."""
        return CardBuilder(self.person, self.device)


class InProcess(Phone):
    """A phone that talks to an app in this process."""

    def __init__(self, app: Flask) -> None:
        self.client = app.test_client()

    def call(self, method: str, path: str, data: bytes = b"", headers: Mapping[str, str] | None = None) -> Answer:
        """Send one request."""
        answer: TestResponse = self.client.open(path, method=method, data=data, headers={**OURS, **(headers or {})})
        with closing(answer):
            return Answer(answer.status_code, answer.headers, answer.get_data())


class OverTheWire(Phone):
    """A phone that talks to a real server."""

    def __init__(self, port: int) -> None:
        self.port = port
        self.cookie = ""

    def call(self, method: str, path: str, data: bytes = b"", headers: Mapping[str, str] | None = None) -> Answer:
        """Send one request on a connection of its own."""
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)) as connection:
            connection.request(method, path, data, {**OURS, "Cookie": self.cookie, **(headers or {})})
            answer = connection.getresponse()
            made = Answer(answer.status, Headers(answer.getheaders()), answer.read())
        if "Set-Cookie" in made.headers:
            self.cookie = made.headers["Set-Cookie"].split(";")[0]
        return made


class RealServer:
    """The real server process on a free port, over one data folder."""

    def __init__(self, folder: Path, environ: Mapping[str, str] | None = None) -> None:
        self.folder = folder
        self.port = free_port()
        self._environ = {**os.environ, **(environ or {})}
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Start it and wait until it answers."""
        command = [sys.executable, "-m", "baycard", "serve", "--port", str(self.port), "--data", str(self.folder)]
        with (self.folder / "server.log").open("ab") as log:
            self._process = subprocess.Popen(
                command, stdout=log, stderr=log, env=self._environ, start_new_session=True, cwd=_source_folder()
            )
        deadline = time.monotonic() + START_S
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > deadline:
                raise AssertionError((self.folder / "server.log").read_text())

    def kill(self) -> None:
        """Kill it as a power cut would: every process of it at once."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """Ask it to stop."""
        self._end(signal.SIGTERM)

    def phone(self, name: str, device: str | None = None) -> OverTheWire:
        """A person of the scenario, signed in."""
        phone = OverTheWire(self.port)
        assert phone.enter(name, device).status == 200
        return phone

    def _end(self, how: signal.Signals) -> None:
        process, self._process = self._process, None
        if process is None:
            return
        if how is signal.SIGKILL:
            os.killpg(process.pid, how)
        else:
            process.send_signal(how)
        try:
            process.wait(timeout=10)
        finally:
            _kill_group(process.pid)

    def _answers(self) -> bool:
        try:
            return OverTheWire(self.port).get("/api/ping").status == 200
        except OSError:
            time.sleep(0.02)
            return False


@contextmanager
def running_server(folder: Path, environ: Mapping[str, str] | None = None) -> Iterator[RealServer]:
    """A real server that is gone at the end."""
    server = RealServer(folder, environ)
    server.start()
    try:
        yield server
    finally:
        server.kill()


def _kill_group(group: int) -> None:
    try:
        os.killpg(group, signal.SIGKILL)
    except ProcessLookupError:
        return


def free_port() -> int:
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _source_folder() -> Path:
    return Path(__file__).resolve().parents[2]
