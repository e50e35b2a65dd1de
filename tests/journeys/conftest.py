"""A furnished server that can be stopped, a mail server, the book, and browsers."""

import socket
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from aiosmtpd.controller import Controller
from playwright.sync_api import Playwright, expect, sync_playwright

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from tests.journeys.browsers import PATIENCE_MS
from tests.journeys.mailbox import Mailbox
from tests.support.server import RealServer, furnish, running_server

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def book() -> Book:
    """The checklists the phone will walk."""
    return load_book(seed_folder())


@pytest.fixture(scope="session", autouse=True)
def built_front_end() -> None:
    """The journeys need the built app."""
    page = ROOT / "baycard" / "web" / "static" / "index.html"
    assert page.exists(), "Build the front end first: `make test` does, or `npm run build` in frontend/."


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Playwright, started once; what is expected of a page gets as long as what is done on it."""
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as started:
        yield started


@pytest.fixture
def mailbox() -> Iterator[Mailbox]:
    """A real mail server on the loopback."""
    box = Mailbox()
    controller = Controller(box, hostname="127.0.0.1", port=_free_port())
    controller.start()
    box.port = controller.port
    yield box
    controller.stop()


@pytest.fixture
def server(tmp_path: Path, mailbox: Mailbox) -> Iterator[RealServer]:
    """The real server with the demo people, mailing through `mailbox`."""
    folder = tmp_path / "data"
    folder.mkdir()
    furnish(folder)
    environ = {
        "BAYCARD_SMTP_HOST": "127.0.0.1",
        "BAYCARD_SMTP_PORT": str(mailbox.port),
        "BAYCARD_SMTP_SECURITY": "none",
        "BAYCARD_MAIL_FROM": "reports@tern-street.example",
    }
    with running_server(folder, environ) as running:
        yield running


def _free_port() -> int:
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
