"""What the routes work with, handed in when the app is made."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, cast

from flask import Flask, current_app

from baycard.people.attempts import Attempts
from baycard.settings import Settings
from baycard.store.door import Store
from baycard.store.values import Server
from baycard.sync.abandoned import Abandoned
from baycard.sync.upload import Uploads
from baycard.web.certificate import CertificateWatch
from baycard.web.published import PublishedBook
from baycard.web.reports import Reports
from baycard.web.streams import Streams

KEY = "baycard"


@dataclass(frozen=True, slots=True)
class Clock:
    """Where times come from: seconds since 1970, and as text in UTC."""

    now_ms: Callable[[], int]
    text: Callable[[], str]


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts of a running server."""

    settings: Settings
    store: Store
    server: Server
    book: PublishedBook
    uploads: Uploads
    abandoned: Abandoned
    certificate: CertificateWatch
    reports: Reports
    attempts: Attempts
    streams: Streams
    clock: Clock
    random_bytes: Callable[[int], bytes]


def keep_parts(app: Flask, made: Parts) -> None:
    """Hand the parts to an app."""
    app.extensions[KEY] = made


def parts() -> Parts:
    """The parts of the app that is answering."""
    extensions: dict[str, Any] = current_app.extensions
    return cast(Parts, extensions[KEY])
