"""The real server over the demo workshop, for pictures and for checks that want every kind of card."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.demo.fill import fill
from baycard.store.door import open_store, sqlite_url
from baycard.store.migrate import prepare
from tests.support.server import running_server

DEMO_SECRET = "tern-street-demo"


@dataclass(frozen=True)
class DemoServer:
    """Where it answers, and the ids of its cards by name."""

    url: str
    cards: dict[str, str]


@contextmanager
def demo_server(folder: Path) -> Iterator[DemoServer]:
    """Fill a new data folder with the demo and serve it; mails go to a folder beside it."""
    data = folder / "data"
    data.mkdir()
    store = open_store(sqlite_url(data), data)
    prepare(store)
    demo = fill(store, load_book(seed_folder()), int(time.time() * 1000), os.urandom, DEMO_SECRET)
    store.close()
    with running_server(data, {"BAYCARD_MAIL_FOLDER": str(folder / "mail")}) as server:
        yield DemoServer(server.url, demo.cards)
