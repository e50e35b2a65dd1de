"""Tells listeners that something new arrived, so that they pull at once instead of at the next tick."""

import json
import re
import time
from collections.abc import Iterator

from flask import Response, request
from marshmallow import Schema, fields, validate

from baycard.store.workshops import last_arrival
from baycard.web.guard import needs, who
from baycard.web.parts import Parts, parts
from baycard.web.problems import ProblemError
from baycard.web.room import Room

events = Room("events", "/api/events", "News of arrivals")

LOOK_EVERY_S = 0.5
NUMBER = re.compile(r"[0-9]{1,15}")


class After(Schema):
    """What the listener has already."""

    after = fields.Integer(load_default=0, validate=validate.Range(0, 2**53))


@events.on("GET", "")
@events.takes(After, location="query")
@events.gives(200, says='Server-sent events: data is {"arrival": N}')
@needs("record")
def listen(given: dict[str, int]) -> Response:
    """News for a while; the listener then asks again."""
    made, workshop = parts(), who().workshop.id
    heard = request.headers.get("Last-Event-ID", "")
    after = int(heard) if NUMBER.fullmatch(heard) else given["after"]
    if not made.streams.enter():
        raise ProblemError("server-busy").with_headers({"Retry-After": "30"})
    answer = Response(_news(made, workshop, after), content_type="text/event-stream")
    answer.call_on_close(made.streams.leave)
    answer.headers["Cache-Control"] = "no-store"
    answer.headers["X-Accel-Buffering"] = "no"
    return answer


def _news(made: Parts, workshop: str, after: int) -> Iterator[str]:
    yield "retry: 1000\n\n"
    ends = time.monotonic() + made.settings.news_life_s
    while time.monotonic() < ends:
        with made.store.read() as tx:
            arrival = last_arrival(tx, workshop)
        # Lower, too, is news: the server was put back from a backup.
        if arrival != after:
            after = arrival
            yield f"id: {arrival}\ndata: {json.dumps({'arrival': arrival})}\n\n"
        else:
            # A line that says nothing; without it nobody notices that the listener has gone.
            yield ":\n\n"
        time.sleep(LOOK_EVERY_S)
