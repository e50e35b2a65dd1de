"""Makes the app from its parts."""

import os
import time
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from flask import Flask
from flask_smorest import Api
from werkzeug.middleware.proxy_fix import ProxyFix

from baycard.people.attempts import Attempts
from baycard.settings import Settings
from baycard.store.door import Store
from baycard.store.server import server
from baycard.sync.abandoned import Abandoned
from baycard.sync.upload import Uploads
from baycard.version import installed_version
from baycard.web.answers import compress_answers
from baycard.web.blobs import blobs
from baycard.web.bodies import JSON_BYTES_MAX, WholeBodies
from baycard.web.book import book as book_routes
from baycard.web.certificate import CertificateWatch, ends_at
from baycard.web.desk import desk
from baycard.web.events import events
from baycard.web.front import OutsideApi, front
from baycard.web.guard import refuse_foreign_requests
from baycard.web.headers import add_headers
from baycard.web.parts import Clock, Parts, keep_parts
from baycard.web.people import people
from baycard.web.problems import answer_problems
from baycard.web.published import publish_book
from baycard.web.report import report
from baycard.web.reports import Reports
from baycard.web.rescue import rescue
from baycard.web.shapes import ProblemSchema
from baycard.web.strangers import Strangers
from baycard.web.streams import Streams
from baycard.web.sync import sync

OPENAPI = {
    "API_TITLE": "Baycard",
    "API_VERSION": installed_version(),
    "OPENAPI_VERSION": "3.1.0",
    "OPENAPI_URL_PREFIX": "/api",
    "OPENAPI_JSON_PATH": "openapi.json",
}


class ProblemApi(Api):  # type: ignore[misc]  # flask-smorest has no types
    """The API whose errors are problem details."""

    ERROR_SCHEMA = ProblemSchema
    DEFAULT_RESPONSE_CONTENT_TYPE: str

    def _register_responses(self) -> None:
        usual: str = self.DEFAULT_RESPONSE_CONTENT_TYPE
        self.DEFAULT_RESPONSE_CONTENT_TYPE = "application/problem+json"
        super()._register_responses()
        self.DEFAULT_RESPONSE_CONTENT_TYPE = usual


def create_app(settings: Settings, store: Store, book: Mapping[str, Any]) -> Flask:
    """The WSGI app over a prepared store. Raises BookChangedError when a published checklist was changed.

    book: the compiled book as JSON.
    """
    app = Flask(__name__, static_folder=None)
    app.config.update(OPENAPI, MAX_CONTENT_LENGTH=JSON_BYTES_MAX)
    app.url_map.strict_slashes = False
    keep_parts(app, _parts(settings, store, book))
    strangers = Strangers()
    app.before_request(refuse_foreign_requests)
    app.before_request(strangers.read_body)
    api = ProblemApi(app)
    for room in (people, sync, blobs, book_routes, desk, rescue, report, events):
        api.register_blueprint(room)
    app.url_map.converters["outside_api"] = OutsideApi
    app.register_blueprint(front)
    answer_problems(app)
    add_headers(app)
    compress_answers(app)
    app.wsgi_app = WholeBodies(app.wsgi_app, strangers.heard_out)  # type: ignore[method-assign]  # flask's own way to add middleware
    if settings.behind_proxy:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_proto=1, x_host=1)  # type: ignore[method-assign]  # the same
    return app


def _parts(settings: Settings, store: Store, book: Mapping[str, Any]) -> Parts:
    clock = Clock(now_ms=lambda: time.time_ns() // 1_000_000, text=_now)
    with store.read() as tx:
        named = server(tx)
    published = publish_book(store, book)
    abandoned = Abandoned(store.blobs, lambda: clock.now_ms() / 1000)
    abandoned.sweep()
    certificate = CertificateWatch(ends_at(settings.certificate) if settings.certificate else None, clock.now_ms)
    certificate.alarm()
    return Parts(
        settings=settings,
        store=store,
        server=named,
        book=published,
        uploads=Uploads(store, clock.text),
        abandoned=abandoned,
        certificate=certificate,
        reports=Reports(settings, store, published.text),
        attempts=Attempts(time.monotonic),
        streams=Streams(),
        clock=clock,
        random_bytes=os.urandom,
    )


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
