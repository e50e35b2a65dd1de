"""Push, pull and comparing."""

from typing import TypedDict

from flask import Response
from marshmallow import Schema, fields, validate

from baycard.store.pages import page
from baycard.sync.accept import BATCH_MAX, accept
from baycard.sync.compare import card_held
from baycard.web.answers import answer, nothing, server_text
from baycard.web.guard import needs, who
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.pushed import Pushed, digest_of_batch, runs
from baycard.web.room import Room
from baycard.web.shapes import AnyList, ServerSchema

sync = Room("sync", "/api/sync", "Entries from and to the devices")
PAGE_MAX = 5_000


class PushFields(TypedDict):
    """What `Push` gives after checking."""

    entries: list[object]


class PullFields(TypedDict):
    """What `Pull` gives after checking."""

    after: int
    limit: int


class Push(Schema):
    """A batch. Only the envelope is checked here: each entry is judged alone."""

    entries = AnyList(required=True)


class Pull(Schema):
    """Which page."""

    after = fields.Integer(load_default=0, validate=validate.Range(0, 2**53))
    limit = fields.Integer(load_default=1_000, validate=validate.Range(1, PAGE_MAX))


class Pulled(ServerSchema):
    """Entries in order of arrival, each with its `arrival`."""

    entries = fields.List(fields.Dict(), required=True)
    cursor = fields.Integer(required=True)
    more = fields.Boolean(required=True)


class BlobHeld(Schema):
    """A blob that the card mentions."""

    sha256 = fields.String(required=True)
    held = fields.Boolean(required=True)


class Compared(ServerSchema):
    """What the server holds of a card."""

    count = fields.Integer(required=True)
    digest = fields.String(required=True)
    blobs = fields.List(fields.Nested(BlobHeld), required=True)


@sync.on("POST", "/push")
@sync.takes(Push)
@sync.gives(200, Pushed)
@needs("record")
def push(given: PushFields) -> Response:
    """Take in a batch of entries; what is answered as kept is on the disk."""
    if len(given["entries"]) > BATCH_MAX:
        raise ProblemError("batch-too-large", limit=BATCH_MAX)
    outcomes = accept(parts().store, who(), given["entries"])
    return answer(ids=digest_of_batch(given["entries"]), results=runs(outcomes))


@sync.on("GET", "/pull")
@sync.takes(Pull, location="query")
@sync.gives(200, Pulled, says="A page; 204 when nothing came after `after`")
@needs("record")
def pull(given: PullFields) -> Response:
    """The next entries of the workshop in order of arrival; 204 when there is none."""
    with parts().store.read() as tx:
        found = page(tx, who().workshop.id, given["after"], given["limit"])
    if found.cursor == given["after"] and not found.more:
        return nothing()
    more = "true" if found.more else "false"
    text = f'{{"server":{server_text()},"entries":{found.entries},"cursor":{found.cursor},"more":{more}}}'
    made = Response(text, content_type="application/json")
    made.headers["Cache-Control"] = "no-store"
    return made


@sync.on("GET", "/digest/<uuid:card>")
@sync.gives(200, Compared)
@needs("record")
def compare(card: object) -> Response:
    """Count and digest of a card's entries, and which of its blobs are held."""
    held = card_held(parts().store, who().workshop.id, str(card))
    blobs = [{"sha256": sha256, "held": here} for sha256, here in held.blobs]
    return answer(count=held.count, digest=held.digest, blobs=blobs)
