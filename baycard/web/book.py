"""The book, published checklists, and a ping that needs no sign-in."""

import hashlib
from typing import TypedDict

from flask import Response, request
from marshmallow import Schema, fields, validate

from baycard.checklists.translations import LANGUAGES
from baycard.journal.formats import formats_taken
from baycard.store.checklists import published
from baycard.version import installed_version
from baycard.web.answers import answer
from baycard.web.guard import needs
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.published import checklist_in_language
from baycard.web.room import Room
from baycard.web.shapes import ServerSchema

book = Room("book", "/api", "The shop's knowledge")


class Ping(ServerSchema):
    """Who answers, when, and what it speaks."""

    time = fields.String(required=True)
    formats = fields.List(fields.Integer(), required=True)
    book = fields.String(required=True)
    app = fields.String(required=True)
    certificate_days = fields.Integer(metadata={"description": "days left of the certificate, when they are few"})


class InLanguageFields(TypedDict):
    """What `InLanguage` gives after checking."""

    language: str


class InLanguage(Schema):
    """In which language shall be what people read."""

    language = fields.String(load_default="en", validate=validate.OneOf(("en", *LANGUAGES)))


class Anything(Schema):
    """See docs/formats.md section 2."""


@book.on("GET", "/ping")
@book.gives(200, Ping)
def ping() -> Response:
    """Say that this is the server, and what time it is."""
    made = parts()
    days = made.certificate.alarm()
    return answer(
        time=made.clock.text(),
        formats=formats_taken(),
        book=made.book.sha256,
        app=installed_version(),
        **({} if days is None else {"certificate_days": days}),
    )


@book.on("GET", "/book")
@book.takes(InLanguage, location="query")
@book.gives(200, Anything)
@needs("record")
def whole_book(asked: InLanguageFields) -> Response:
    """The book, in a language it is translated to or else in English."""
    return _lasting(parts().book.in_language(asked["language"]), "private, no-cache")


@book.on("GET", "/checklists/<id_>/<int:version>")
@book.takes(InLanguage, location="query")
@book.gives(200, Anything)
@needs("record")
def checklist(asked: InLanguageFields, id_: str, version: int) -> Response:
    """A published version of a checklist, for cards that pinned it; its sha256 is always that of the English one."""
    with parts().store.read() as tx:
        found = published(tx, id_, version)
    if found is None:
        raise ProblemError("not-found")
    _, text = found
    return _lasting(checklist_in_language(text, asked["language"]).encode(), "private, max-age=604800")


def _lasting(text: bytes, cache: str) -> Response:
    made = Response(text, content_type="application/json")
    made.set_etag(hashlib.sha256(text).hexdigest())
    made.headers["Cache-Control"] = cache
    made.make_conditional(request)
    return made
