"""Runs the server: one process prepares the data folder and watches over a second, which answers."""

import ctypes
import gc
import json
import os
import signal
import sys
from collections.abc import MutableMapping
from dataclasses import dataclass
from pathlib import Path

from flask import Flask
from granian.constants import Interfaces
from granian.log import LogLevels
from granian.server import Server

from baycard.checklists.from_json import to_json
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.settings import Settings, settings_from
from baycard.store.door import open_store
from baycard.store.migrate import prepare
from baycard.web.app import create_app
from baycard.web.audit import write_audit_to
from baycard.web.certificate import ends_at
from baycard.web.published import publish_book
from baycard.web.vanished import notice_vanished

THREADS = 64
STOP_WAIT_S = 5
COLLECT_AFTER = (20_000, 20, 20)
BOOK_FILE = "book.json"
# Each sign-in and each photo takes many MB for a moment; glibc would keep them for every thread that ever did one.
FEW_HEAPS = ("MALLOC_ARENA_MAX", "2")
DIE_WITH_PARENT = 1  # PR_SET_PDEATHSIG of prctl(2)


@dataclass(frozen=True, slots=True)
class Address:
    """Where to answer; with certificate and key, by https. Phones keep the app offline only from https addresses."""

    host: str
    port: int
    certificate: Path | None = None
    key: Path | None = None

    @property
    def url(self) -> str:
        """As one types it."""
        return f"http{'s' if self.certificate else ''}://{self.host}:{self.port}"


def serve(address: Address, folder: Path | None, environ: MutableMapping[str, str]) -> int:
    """Serve until stopped. Raises ValueError with a plain sentence."""
    if (address.certificate is None) != (address.key is None):
        raise ValueError("Name both the certificate and its key, or neither.")
    if address.certificate is not None:
        environ["BAYCARD_CERTIFICATE"] = str(address.certificate.absolute())
    settings = settings_from(environ, folder)
    if settings.certificate is not None:
        ends_at(settings.certificate)  # better now than in the answering process
    prepare_folder(settings)
    environ["BAYCARD_DATA"] = str(settings.folder)
    environ.setdefault(*FEW_HEAPS)
    print(f"Baycard answers at {address.url} and keeps its data in {settings.folder}", flush=True)
    Server(
        "baycard.web.serve:app_of_worker",
        address.host,
        address.port,
        ssl_cert=address.certificate,
        ssl_key=address.key,
        interface=Interfaces.WSGI,
        factory=True,
        workers=1,
        blocking_threads=THREADS,
        websockets=False,
        log_level=LogLevels.error,
        respawn_failed_workers=True,
        workers_kill_timeout=STOP_WAIT_S,
    ).serve()
    return 0


def prepare_folder(settings: Settings) -> None:
    """Bring the data folder up to date: the tables, and the book compiled and published."""
    store = open_store(settings.database, settings.folder)
    prepare(store)
    book = to_json(load_book(seed_folder()))
    publish_book(store, book)
    store.close()
    draft = settings.folder / f"{BOOK_FILE}.draft"
    draft.write_text(json.dumps(book, ensure_ascii=False))
    draft.replace(settings.folder / BOOK_FILE)


def make_app(settings: Settings) -> Flask:
    """The app over a prepared data folder."""
    store = open_store(settings.database, settings.folder)
    return create_app(settings, store, json.loads((settings.folder / BOOK_FILE).read_text()))


def app_of_worker() -> Flask:
    """What the answering process runs; it ends when the watching process does."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(DIE_WITH_PARENT, signal.SIGTERM)
    settings = settings_from(os.environ)
    write_audit_to(settings.folder)
    app = make_app(settings)
    spare_the_collector()
    notice_vanished()
    return app


def spare_the_collector() -> None:
    """Leave what lives as long as the process out of every garbage collection, and collect less often."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*COLLECT_AFTER)
