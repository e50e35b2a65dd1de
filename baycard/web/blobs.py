"""Photos and sounds: in by resumable upload, out with a fixed type."""

import re

from flask import Response, request, send_file

from baycard.store.blobs import blob
from baycard.sync.finish import Unfit
from baycard.sync.print_photo import print_photo
from baycard.sync.upload import BLOB_BYTES_MAX, Complete, Partial, Piece, Uploaded, WrongOffset
from baycard.sync.whose import objection
from baycard.web.answers import answer, nothing
from baycard.web.guard import needs, who
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.room import Room

blobs = Room("blobs", "/api/blobs", "Photos and sounds, named by their SHA-256")

SHA256 = re.compile(r"[0-9a-f]{64}")
NUMBER = re.compile(r"[0-9]{1,12}")
SUFFIX = {
    "image/jpeg": "jpg",
    "image/png": "png",
    "image/webp": "webp",
    "audio/webm": "webm",
    "audio/ogg": "ogg",
    "audio/mp4": "m4a",
    "audio/wav": "wav",
}


@blobs.on("PUT", "/<sha256>")
@blobs.described(
    parameters=[
        {"in": "header", "name": "Upload-Offset", "schema": {"type": "integer", "default": 0}},
        {"in": "header", "name": "Upload-Length", "schema": {"type": "integer"}},
        {"in": "header", "name": "X-Baycard-Card", "schema": {"type": "string"}},
        {"in": "header", "name": "X-Baycard-Author", "schema": {"type": "string"}},
    ],
    requestBody={"content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}}},
)
@blobs.gives(201, says="Held in full; 200 when it was before, 204 when more bytes are wanted")
@needs("record")
def put(sha256: str) -> Response:
    """Append bytes; with the last of them the whole is checked and kept."""
    _check_hash(sha256)
    _check_whose()
    offset = _number("Upload-Offset", 0)
    length = _number("Upload-Length", offset + (request.content_length or 0))
    if length > BLOB_BYTES_MAX:
        raise ProblemError("blob-too-large", limit=BLOB_BYTES_MAX)
    if length < 1 or offset > length or offset + (request.content_length or 0) > length:
        raise ProblemError("bad-length")
    if offset == 0:
        parts().abandoned.sweep()
    piece = Piece(who().workshop.id, sha256, offset, length, request.environ["wsgi.input"])
    return _answer(parts().uploads.append(piece), sha256)


@blobs.on("GET", "/<sha256>")
@blobs.gives(200, says="The bytes, or the upload's state for HEAD")
@needs("record")
def get(sha256: str) -> Response:
    """The bytes of a blob of one's own workshop; `?size=print` for the small picture. HEAD: how much is held."""
    _check_hash(sha256)
    if request.method == "HEAD":
        return _state(sha256)
    made = parts()
    with made.store.read() as tx:
        found = blob(tx, who().workshop.id, sha256)
    if found is None:
        raise ProblemError("not-found")
    small = request.args.get("size") == "print" and found.mime.startswith("image/")
    where = who().workshop.id, sha256
    path = print_photo(made.store.blobs, *where) if small else made.store.blobs.path(*where)
    if path is None:
        raise ProblemError("not-found")
    mime = "image/jpeg" if small else found.mime
    sent = send_file(
        path, mimetype=mime, download_name=f"{sha256[:12]}.{SUFFIX[mime]}", conditional=True, etag=f"{sha256}{small}"
    )
    sent.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    sent.headers["Content-Security-Policy"] = "default-src 'none'; sandbox"
    return sent


def _check_hash(sha256: str) -> None:
    if not SHA256.fullmatch(sha256):
        raise ProblemError("bad-hash")


def _check_whose() -> None:
    """An app from before these headers says nothing of the card; what it sends is taken."""
    card, author = request.headers.get("X-Baycard-Card"), request.headers.get("X-Baycard-Author")
    if card is None or author is None:
        return
    code = objection(parts().store, who().workshop.id, card, author)
    if code is not None:
        raise ProblemError(code)


def _number(header: str, otherwise: int) -> int:
    text = request.headers.get(header)
    if text is None:
        return otherwise
    if not NUMBER.fullmatch(text):
        raise ProblemError("bad-length")
    return int(text)


def _state(sha256: str) -> Response:
    held = parts().uploads.held(who().workshop.id, sha256)
    if held is None:
        raise ProblemError("not-found")
    made = Response()
    made.headers["Cache-Control"] = "no-store"
    _say_progress(made, held)
    return made


def _answer(uploaded: Uploaded, sha256: str) -> Response:
    match uploaded:
        case Complete(again=again):
            made = answer(200 if again else 201, sha256=sha256, complete=True)
        case Partial():
            made = nothing()
        case WrongOffset(offset):
            said = {"Upload-Offset": str(offset), "Upload-Complete": "?0"}
            raise ProblemError("wrong-offset", offset=offset).with_headers(said)
        case Unfit(code, title, do):
            raise ProblemError(code, **({"title": title, "do": do} if title else {}))
    _say_progress(made, uploaded)
    return made


def _say_progress(made: Response, held: Complete | Partial) -> None:
    complete = isinstance(held, Complete)
    length = held.blob.sent_bytes if isinstance(held, Complete) else held.length
    made.headers["Upload-Offset"] = str(length if isinstance(held, Complete) else held.offset)
    made.headers["Upload-Length"] = str(length)
    made.headers["Upload-Complete"] = "?1" if complete else "?0"
