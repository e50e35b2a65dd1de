"""The foreman's decisions."""

from typing import cast

from flask import Response
from marshmallow import Schema, fields, validate

from baycard.desk.sign_off import DRIVES, Changed, Hands, Judgement, PhotosMissing, Unsettled, sign_off
from baycard.journal.entry import Entry, entry_to_json
from baycard.web.answers import answer
from baycard.web.audit import note
from baycard.web.guard import needs, who
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.room import Room
from baycard.web.shapes import ServerSchema

desk = Room("desk", "/api/desk/cards", "Signing off")
WORDS = validate.Length(0, 4_000)


class SignOffSchema(Schema):
    """What the foreman saw and decides."""

    count = fields.Integer(required=True, strict=True)
    digest = fields.String(required=True, validate=validate.Regexp(r"\A[0-9a-f]{64}\Z"))
    drive = fields.String(required=True, validate=validate.OneOf(DRIVES))
    restrictions = fields.String(load_default="", validate=WORDS)
    look_again = fields.String(load_default="", validate=WORDS)
    words = fields.String(load_default="", validate=WORDS)
    without_photos = fields.String(load_default="", validate=WORDS)


class Signed(ServerSchema):
    """The entry that signs the card off."""

    entry = fields.Dict(required=True)


@desk.on("POST", "/<uuid:card>/sign-off")
@desk.takes(SignOffSchema)
@desk.gives(200, Signed)
@needs("sign-off")
def sign(given: dict[str, object], card: object) -> Response:
    """Sign a card off as it was seen; refused when the server's card is another."""
    made = parts()
    judgement = Judgement(**cast("dict[str, str]", given))  # type: ignore[arg-type]  # checked by SignOffSchema
    hands = Hands(made.clock.now_ms, made.random_bytes)
    signed = sign_off(made.store, who(), str(card), judgement, hands)
    match signed:
        case Entry():
            note("signed off", card=signed.card, revision=signed.body["revision"], entry=signed.id)
            return answer(entry=entry_to_json(signed))
        case Changed(count, digest):
            raise ProblemError("card-changed", count=count, digest=digest)
        case Unsettled(slots):
            raise ProblemError("unsettled", slots=slots)
        case PhotosMissing(slots):
            raise ProblemError("photos-missing", count=len(slots), slots=slots)
        case code:
            raise ProblemError(code)
