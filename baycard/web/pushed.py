"""The answer to a push: runs of outcomes in the order of the entries, and a proof of which entries are meant."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any

from marshmallow import Schema, fields, validate

from baycard.journal.digest import digest_in_order
from baycard.sync.accept import Kept, Outcome
from baycard.web.problems import ENTRY_WORDING
from baycard.web.shapes import ServerSchema


class Result(Schema):
    """What became of one entry."""

    id = fields.String(required=True)
    outcome = fields.String(required=True, validate=validate.OneOf(("kept", "already-kept", "refused")))
    arrival = fields.Integer()
    code = fields.String()
    title = fields.String()
    do = fields.String()


class Run(Schema):
    """What became of `count` entries in a row; `arrival` is the number of the first, the others follow on it."""

    count = fields.Integer(required=True, validate=validate.Range(1))
    outcome = fields.String(required=True, validate=validate.OneOf(("kept", "already-kept", "refused")))
    arrival = fields.Integer()
    code = fields.String()
    title = fields.String()
    do = fields.String()


class Pushed(ServerSchema):
    """The outcomes of all entries in the order they came, and the digest of their ids in that order."""

    ids = fields.String(required=True)
    results = fields.List(fields.Nested(Run), required=True)


def digest_of_batch(raw_entries: Iterable[object]) -> str:
    """The digest of the ids as they were sent; what has no id counts as an empty one."""
    ids = (raw.get("id") if isinstance(raw, dict) else None for raw in raw_entries)
    return digest_in_order(id_ if isinstance(id_, str) else "" for id_ in ids)


def runs(outcomes: Sequence[Outcome]) -> list[dict[str, Any]]:
    """The outcomes with those alike put together."""
    alike = groupby(enumerate(outcomes), lambda numbered: _likeness(*numbered))
    return [_run([outcome for _, outcome in group]) for _, group in alike]


def _likeness(place: int, outcome: Outcome) -> tuple[object, ...]:
    if isinstance(outcome, Kept):
        return outcome.again, outcome.arrival - place
    return outcome.code, outcome.title, outcome.do


def _run(alike: Sequence[Outcome]) -> dict[str, Any]:
    said = result_json(alike[0])
    del said["id"]
    return {"count": len(alike), **said}


def result_json(outcome: Outcome) -> dict[str, Any]:
    """What became of one entry, by its id."""
    if isinstance(outcome, Kept):
        return {"id": outcome.id, "outcome": "already-kept" if outcome.again else "kept", "arrival": outcome.arrival}
    title, do = (outcome.title, outcome.do) if outcome.title else ENTRY_WORDING[outcome.code]
    return {"id": outcome.id, "outcome": "refused", "code": outcome.code, "title": title, "do": do}
