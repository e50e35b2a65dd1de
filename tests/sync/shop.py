"""The server of the fleet: the real app over a real SQLite file, that can be killed at any step of its store."""

import dataclasses
import io
import logging
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from baycard.journal.entry import iso_time
from baycard.store.door import Store, Tx
from baycard.store.server import begin_epoch, server
from baycard.sync.upload import Uploads
from baycard.web.app import create_app
from baycard.web.parts import KEY, Parts
from tests.support.server import SMALL_BOOK, InProcess, World, furnish
from tests.sync.fragile_store import FragileStore, Fuse, Killed
from tests.sync.material import START_MS

CREW = ("Ines Varga", "Tom Abara", "Ruth Okello", "Ines Varga", "Olga Tern")


class Faults(logging.Handler):
    """What the server said it could not answer for."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Note it."""
        self.seen.append(repr(record.exc_info[1]) if record.exc_info else record.getMessage())


@dataclass(frozen=True)
class Answer:
    """What the server said."""

    status: int
    headers: dict[str, str]
    body: bytes


class Shop:
    """One server over one folder; every seed begins with the same furnished folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "data"
        self._template = folder / "template"
        self._backup = folder / "backup"
        self._template.mkdir()
        furnish(self._template)
        world = World(self._template)
        self.crew = [world.sign_in(name) for name in CREW]
        self.cookies = [_cookie(one) for one in self.crew]
        self.workshop = self.crew[0].workshop
        self.neighbour, self.neighbours_cookie = world.neighbour.workshop, _cookie(world.neighbour)
        world.store.close()
        shutil.copytree(self._template, self.folder)
        self.fuse = Fuse()
        self.store = FragileStore(World(self.folder).store, self.fuse)
        settings = dataclasses.replace(world.settings, folder=self.folder)
        self.app = create_app(settings, self.store, SMALL_BOOK)
        self.faults = Faults()
        log = logging.getLogger("baycard.web")
        log.addHandler(self.faults)
        log.propagate = False
        self.deaths = 0
        self.now_ms: Callable[[], int] = lambda: START_MS
        self.known: set[str] = set()
        self.blobs: set[str] = set()
        self._arrival = 0

    def begin(self) -> None:
        """A server that never met these phones."""
        self._swap(self._template)
        self.faults.seen.clear()
        self.start()

    def start(self) -> None:
        """A new process over what the disk holds."""
        self.fuse.left = None
        self.store.engine.dispose()
        parts: Parts = self.app.extensions[KEY]
        with self.store.read() as tx:
            named = server(tx)
        # Only what the server says of the time is simulated: its sessions were begun by the machine's clock.
        clock = dataclasses.replace(parts.clock, text=lambda: iso_time(self.now_ms()))
        self.app.extensions[KEY] = dataclasses.replace(
            parts, store=self.store, server=named, uploads=Uploads(self.store, clock.text), clock=clock
        )
        self.known, self.blobs, self._arrival = set(), set(), 0
        self.look()

    def ask(self, phone: int, request: dict[str, Any], body: bytes, promised: int | None = None) -> Answer:
        """Answer one request. Raises Killed. promised: the length that was announced, when less arrives."""
        environ = _environ(request, body, len(body) if promised is None else promised)
        environ["HTTP_COOKIE"] = self.cookies[phone]
        said: list[Any] = []
        try:
            chunks = self.app.wsgi_app(environ, _noting(said))
            data = b"".join(chunks)
            getattr(chunks, "close", lambda: None)()
        except Killed:
            self.deaths += 1
            raise
        finally:
            if request["method"] in {"POST", "PUT"}:
                self.look()
        return Answer(int(said[0][:3]), dict(said[1]), data)

    def look(self) -> None:
        """See what is on the disk now."""
        with self.store.read() as tx:
            rows = tx.exec_driver_sql(
                "SELECT id, arrival FROM entries WHERE workshop = ? AND arrival > ? ORDER BY arrival",
                (self.workshop, self._arrival),
            ).fetchall()
            self.blobs = _blobs_of(tx, self.workshop)
        for id_, self._arrival in rows:
            self.known.add(id_)

    def at_the_neighbours(self) -> set[str]:
        """The photos and sounds that the other workshop holds, parts included."""
        parts = self.store.blobs.root / self.neighbour / "parts"
        with self.store.read() as tx:
            return _blobs_of(tx, self.neighbour) | {path.name for path in parts.glob("*")}

    def back_up(self) -> None:
        """A copy of everything, for a bad day."""
        self.store.engine.dispose()
        shutil.rmtree(self._backup, ignore_errors=True)
        shutil.copytree(self.folder, self._backup)

    def restore(self) -> None:
        """The bad day: what came in since the copy is gone here."""
        epoch = self._epoch() + 1
        self._swap(self._backup)
        with Store.write(self.store) as tx:
            begin_epoch(tx, epoch)
        self.start()

    def blob_bytes(self, sha256: str) -> bytes:
        """What is kept under a name."""
        return self.store.blobs.path(self.workshop, sha256).read_bytes()

    def _epoch(self) -> int:
        with self.store.read() as tx:
            return server(tx).epoch

    def _swap(self, source: Path) -> None:
        self.fuse.left = None
        self.store.engine.dispose()
        shutil.rmtree(self.folder)
        shutil.copytree(source, self.folder)


def _blobs_of(tx: Tx, workshop: str) -> set[str]:
    rows = tx.exec_driver_sql("SELECT sha256 FROM blobs WHERE workshop = ?", (workshop,))
    return {row[0] for row in rows}


def _noting(said: list[Any]) -> Any:
    """What WSGI calls with the status and the headers."""
    return lambda status, headers, _error=None: said.extend((status, headers))


def _cookie(phone: InProcess) -> str:
    cookie = phone.client.get_cookie("baycard")
    assert cookie is not None
    return f"baycard={cookie.value}"


def _environ(request: dict[str, Any], body: bytes, promised: int) -> dict[str, Any]:
    path, _, query = request["path"].partition("?")
    headers = {f"HTTP_{name.upper().replace('-', '_')}": value for name, value in request["headers"].items()}
    return {
        **headers,
        "REQUEST_METHOD": request["method"],
        "SCRIPT_NAME": "",
        "PATH_INFO": path,
        "QUERY_STRING": query,
        "CONTENT_TYPE": headers.get("HTTP_CONTENT_TYPE", ""),
        "CONTENT_LENGTH": str(promised),
        "SERVER_NAME": "shop.test",
        "SERVER_PORT": "80",
        "SERVER_PROTOCOL": "HTTP/1.1",
        "REMOTE_ADDR": "127.0.0.1",
        "wsgi.version": (1, 0),
        "wsgi.url_scheme": "http",
        "wsgi.input": io.BytesIO(body),
        "wsgi.errors": io.StringIO(),
        "wsgi.multithread": False,
        "wsgi.multiprocess": False,
        "wsgi.run_once": False,
    }
