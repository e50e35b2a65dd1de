"""Every problem the server answers with: one row per code (RFC 9457 problem details)."""

import errno
import json
import logging
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Self

from flask import Flask, Response
from werkzeug.exceptions import HTTPException

from baycard.web.parts import parts

log = logging.getLogger("baycard.web")


@dataclass(frozen=True, slots=True)
class Problem:
    """A problem: its HTTP status, what is wrong, and what the person can do."""

    status: int
    title: str
    do: str


AGAIN = "Try again in a moment. What you recorded is kept on this device."
PROBLEMS: dict[str, Problem] = {
    # who asks
    "not-signed-in": Problem(401, "You are not signed in.", "Sign in. What you recorded is kept on this device."),
    "wrong-name-or-secret": Problem(401, "Name and secret do not fit together.", "Check both and sign in again."),
    "wrong-old-secret": Problem(403, "This is not the present secret.", "Type the one you signed in with."),
    "too-many-tries": Problem(429, "Too many wrong tries.", "Wait a quarter of an hour, then sign in again."),
    "device-revoked": Problem(
        403, "This device was shut out.", "Ask the foreman to let it in again. What you recorded is kept on it."
    ),
    "role": Problem(403, "Your role may not do this.", "Ask the foreman to do it."),
    "cross-site": Problem(403, "This request did not come from the app.", "Open the app and do it there."),
    # what is asked
    "not-json": Problem(415, "The server takes JSON here.", "Send it as application/json."),
    "bad-json": Problem(400, "What arrived is not complete JSON.", "Send it again."),
    "bad-encoding": Problem(
        400, "The compressed request cannot be read.", "Send it again, compressed with gzip or plain."
    ),
    "bad-request": Problem(400, "The server does not understand this request.", "Update the app and try again."),
    "bad-fields": Problem(
        422, "Something is missing or in the wrong form.", "Look at the named fields and correct them."
    ),
    "body-too-large": Problem(413, "The request is too large.", "Send it in smaller parts."),
    "batch-too-large": Problem(413, "Too many entries at once.", "Send at most 1,000 entries in one request."),
    "not-found": Problem(404, "There is nothing here.", "Check the address."),
    "method-not-allowed": Problem(405, "This cannot be done here.", "Use one of the methods in the Allow header."),
    "server-fault": Problem(500, "The server made a mistake.", AGAIN),
    "server-busy": Problem(503, "The server is busy.", AGAIN),
    "server-full": Problem(
        507, "The server's disk is full.", "Tell whoever runs the server. Your device keeps what it has."
    ),
    "server-cannot-write": Problem(
        503, "The server cannot write to its disk.", "Tell whoever runs the server. Your device keeps what it has."
    ),
    # entries, refused one by one in the answer of a push
    "not-an-entry": Problem(422, "This is not an entry.", "Update the app; the entry is kept on this device."),
    "older-format": Problem(
        422,
        "The app that wrote this entry is too old for the server.",
        "Reload the app to update it; the entry is kept on that device.",
    ),
    "entry-too-large": Problem(422, "The entry is too large.", "Make it shorter and record it again."),
    "id-conflict": Problem(409, "Another entry has the same id.", "Record it again; the app gives it a new id."),
    "other-workshop": Problem(403, "This card belongs to another workshop.", "Sign in as a person of that workshop."),
    "unknown-author": Problem(
        403, "Its author is not one of this workshop's people.", "Ask the owner to enter the person."
    ),
    "unknown-device": Problem(
        403, "It was made on a device this workshop does not know.", "Sign in on that device first."
    ),
    "desk-only": Problem(403, "A sign-off is made at the desk only.", "Sign the card off at the desk."),
    # blobs
    "bad-hash": Problem(400, "A photo or sound is named by its SHA-256 in 64 small hex digits.", "Update the app."),
    "bad-length": Problem(
        400, "Upload-Length and Upload-Offset must be whole numbers that fit together.", "Update the app."
    ),
    "blob-too-large": Problem(413, "The file is larger than 25 MB.", "Make a shorter recording or a smaller photo."),
    "wrong-offset": Problem(409, "The server holds another number of bytes.", "Go on from the offset in this answer."),
    "hash-mismatch": Problem(
        422, "The bytes that arrived are not those that were announced.", "Send it again from the start."
    ),
    "not-a-photo-or-sound": Problem(
        422, "This is neither a photo nor a sound.", "Send JPEG, PNG or WebP, or a sound as WebM, Ogg, MP4 or WAV."
    ),
    # work that a phone saved to a file
    "rescue-not-ours": Problem(
        422, "This is not a file that a phone saved its work to.", "Choose the file that begins with baycard-."
    ),
    "rescue-damaged": Problem(
        422, "This file is damaged or incomplete. Nothing of it was taken in.", "Copy it again, or save it again there."
    ),
    "rescue-newer": Problem(
        422, "This file was written by a newer app. Nothing of it was taken in.", "Update the server, then try again."
    ),
    "rescue-other-workshop": Problem(
        409,
        "This file comes from a phone of another workshop or server. Nothing of it was taken in.",
        "Take it in there.",
    ),
    "rescue-too-large": Problem(413, "This file is too large.", "Tell whoever runs the server."),
    "blob-busy": Problem(
        409, "The phone itself is sending this photo or sound just now.", "Take the file in again in a minute."
    ),
    # desk
    "card-changed": Problem(
        409,
        "The card is not what you saw: entries came in or are missing here.",
        "Wait for the new entries, look, sign again.",
    ),
    "unsettled": Problem(409, "Two entries disagree.", "Settle every disagreement, then sign."),
    "photos-missing": Problem(
        409,
        "Photos or sounds of this card have not arrived yet.",
        "Wait until the phone has sent them, or say why it is signed without them.",
    ),
    "unknown-checklist": Problem(
        409, "A checklist of this card is not published on this server.", "Publish that version again, then sign."
    ),
    "empty-card": Problem(409, "There is nothing to sign.", "Record something first."),
    # reports
    "no-report": Problem(404, "There is no report with this number.", "Sign the card off first."),
    "no-mail": Problem(
        503, "This server cannot send mail yet.", "Ask whoever runs it to set BAYCARD_SMTP_HOST, or print the report."
    ),
    "bad-address": Problem(422, "This is not an e-mail address.", "Check the address."),
    "mail-failed": Problem(502, "The mail server did not take the report.", "Try again later, or print the report."),
    "mail-underway": Problem(409, "This report is being mailed to that address.", "Wait ten minutes, then try again."),
    # people
    "unknown-person": Problem(404, "This workshop has no such person.", "Look at the list of people."),
    "unknown-device-id": Problem(404, "This workshop has no such device.", "Look at the list of devices."),
    "not-yourself": Problem(409, "You cannot shut yourself out.", "Ask another owner."),
    "name-taken": Problem(409, "The workshop has somebody of that name.", "Choose another name."),
    "weak-secret": Problem(
        422, "The secret is too easy to guess.", "Use 8 to 200 characters, not the name, not one repeated."
    ),
}
BY_STATUS = {
    400: "bad-request",
    401: "not-signed-in",
    404: "not-found",
    405: "method-not-allowed",
    413: "body-too-large",
    415: "not-json",
    422: "bad-fields",
}
# As SQLite says it; it cannot even read a database whose folder is write-protected.
UNWRITABLE = ("readonly database", "unable to open database file")
ENTRY_CODES = (
    "not-an-entry",
    "older-format",
    "entry-too-large",
    "id-conflict",
    "other-workshop",
    "unknown-author",
    "unknown-device",
    "device-revoked",
    "role",
    "desk-only",
)
ENTRY_WORDING = {code: (PROBLEMS[code].title, PROBLEMS[code].do) for code in ENTRY_CODES}


class ProblemError(Exception):
    """Raised by a route to answer with a problem; `extra` are further members of the answer."""

    def __init__(self, code: str, **extra: object) -> None:
        super().__init__(code)
        self.code = code
        self.extra = extra
        self.headers: dict[str, str] = {}

    def with_headers(self, headers: Mapping[str, str]) -> Self:
        """The same with further headers."""
        self.headers.update(headers)
        return self


def problem_answer(code: str, headers: Iterable[tuple[str, str]] = (), **extra: object) -> Response:
    """A problem as an answer. `title`, `do` and `status` in `extra` go before those of the table."""
    problem = PROBLEMS.get(code, PROBLEMS["bad-fields"])
    server = parts().server
    body = {
        "type": "about:blank",
        "status": problem.status,
        "code": code,
        "title": problem.title,
        "do": problem.do,
        "server": {"instance": server.instance, "epoch": server.epoch},
        **extra,
    }
    answer = Response(json.dumps(body, ensure_ascii=False), problem.status, content_type="application/problem+json")
    for name, value in headers:
        answer.headers[name] = value
    answer.headers["Cache-Control"] = "no-store"
    return answer


def answer_problems(app: Flask) -> None:
    """Answer every error with problem details."""
    app.register_error_handler(ProblemError, _raised)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _fault)


def _raised(error: ProblemError) -> Response:
    return problem_answer(error.code, error.headers.items(), **error.extra)


def _http(error: HTTPException) -> Response:
    status = error.code or 500
    code = BY_STATUS.get(status, "server-fault" if status >= 500 else "bad-request")
    kept = [(name, value) for name, value in error.get_headers() if name in {"Allow", "Retry-After", "Location"}]
    fields = getattr(error, "data", {}).get("messages")
    return problem_answer(code, kept, **({"fields": fields} if fields else {}))


def _fault(error: Exception) -> Response:
    log.error("fault while answering", exc_info=error)
    return problem_answer(_code_of(error))


def _code_of(error: Exception) -> str:
    number = getattr(error, "errno", None)
    if number == errno.ENOSPC or "disk is full" in str(error):
        return "server-full"
    unwritable = number == errno.EROFS or any(words in str(error) for words in UNWRITABLE)
    return "server-cannot-write" if unwritable else "server-fault"
