"""Reports of signed cards: the PDF, and its way to the customer."""

from datetime import UTC, datetime
from typing import TypedDict

from flask import Response
from marshmallow import Schema, fields, validate

from baycard.report.mail import MailRefusal
from baycard.web.answers import answer
from baycard.web.audit import note
from baycard.web.frozen_card import Signed, signed_card
from baycard.web.guard import needs, who
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.room import Room
from baycard.web.shapes import ServerSchema

report = Room("report", "/api/desk/cards", "Reports of signed cards")


class SendFields(TypedDict):
    """What `Send` gives after checking."""

    to: str


class Send(Schema):
    """One address."""

    to = fields.String(required=True, validate=validate.Length(1, 254))


class SentSchema(ServerSchema):
    """Where it went."""

    sent = fields.Boolean(required=True)
    to = fields.String(required=True)


@report.on("GET", "/<uuid:card>/report/<int:revision>.pdf")
@report.gives(200, says="The PDF")
@needs("record")
def pdf(card: object, revision: int) -> Response:
    """The report of a signed revision; it never changes."""
    data = parts().reports.pdf(_signed(str(card), revision))
    if data is None:
        raise ProblemError("server-busy").with_headers({"Retry-After": "10"})
    made = Response(data, content_type="application/pdf")
    made.headers["Content-Disposition"] = f'inline; filename="report-{revision}.pdf"'
    made.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    made.headers["Content-Security-Policy"] = "default-src 'none'; frame-ancestors 'none'"
    return made


@report.on("POST", "/<uuid:card>/report/<int:revision>/send")
@report.takes(Send)
@report.gives(200, SentSchema)
@needs("send-report")
def send(given: SendFields, card: object, revision: int) -> Response:
    """Mail a report to one address. Asking again for the same address does not mail again."""
    to = given["to"].strip()
    sent = parts().reports.send(_signed(str(card), revision), to, datetime.now(UTC))
    if isinstance(sent, MailRefusal):
        code = "bad-address" if sent.code in {"bad-address", "address-refused"} else "mail-failed"
        raise ProblemError(code, title=sent.title, do=sent.do, reason=sent.code)
    if sent != "sent":
        raise ProblemError(sent)
    note("report mailed", card=str(card), revision=revision, to=to)
    return answer(sent=True, to=to)


def _signed(card: str, revision: int) -> Signed:
    found = signed_card(parts().store, who().workshop, card, revision)
    if found is None:
        raise ProblemError("no-report")
    return found
