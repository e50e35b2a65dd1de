"""How requests are read: gzip with a bound on what it may grow to, and JSON without the extras Python would let in."""

import zlib
from collections.abc import Callable, Iterable
from io import BytesIO
from threading import Semaphore
from typing import Any, BinaryIO

from flask import Request, request
from webargs.flaskparser import FlaskParser

from baycard.sync.strict_json import strict_json
from baycard.web.problems import ProblemError

WIRE_BYTES_MAX = 8 * 1024 * 1024
JSON_BYTES_MAX = 32 * 1024 * 1024
CHUNK_BYTES = 64 * 1024
HEARD_BYTES_MAX = 40 * 1024 * 1024
# Set once the request's session was found.
KNOWN = "baycard.known"

Environ = dict[str, Any]
Wsgi = Callable[[Environ, Any], Iterable[bytes]]


class WholeBodies:
    """WSGI middleware: hears a request out before it is answered, also when the answer did not need its body.

    A browser that is still sending when the server closes takes the request for lost and never reads the answer.
    Whoever stalls keeps a thread meanwhile: of those who are not signed in only a few are heard out at a time.
    """

    def __init__(self, app: Wsgi, strangers: Semaphore) -> None:
        self._app = app
        self._strangers = strangers

    def __call__(self, environ: Environ, start_response: Any) -> Iterable[bytes]:  # noqa: ANN401  # WSGI's callable
        """Answer one request."""
        body: BinaryIO = environ["wsgi.input"]
        answer = self._app(environ, start_response)
        if int(environ.get("CONTENT_LENGTH") or 0) > 0:
            self._hear_out(body, known=KNOWN in environ)
        return answer

    def _hear_out(self, body: BinaryIO, known: bool) -> None:
        if known:
            _hear_out(body)
        elif self._strangers.acquire(blocking=False):
            try:
                _hear_out(body)
            finally:
                self._strangers.release()


def unpack_body() -> None:
    """Before a route reads its body: a compressed one becomes a plain one. Answers what is wrong with it."""
    environ = request.environ
    encoding = environ.pop("HTTP_CONTENT_ENCODING", "").strip().lower()
    if encoding in {"", "identity"}:
        return
    body = _unpacked(environ["wsgi.input"], environ) if encoding == "gzip" else "bad-encoding"
    if isinstance(body, str):
        raise ProblemError(body)
    environ["wsgi.input"] = BytesIO(body)
    environ["CONTENT_LENGTH"] = str(len(body))


def _hear_out(body: BinaryIO) -> None:
    left = HEARD_BYTES_MAX
    try:
        while left > 0 and (chunk := body.read(CHUNK_BYTES)):
            left -= len(chunk)
    except OSError:  # whoever was sending is gone
        return


def _unpacked(stream: BinaryIO, environ: Environ) -> bytes | str:
    left = int(environ.get("CONTENT_LENGTH") or 0)
    if left > WIRE_BYTES_MAX:
        return "body-too-large"
    unzip = zlib.decompressobj(wbits=31)
    out = bytearray()
    try:
        while left > 0 and (chunk := stream.read(min(CHUNK_BYTES, left))):
            left -= len(chunk)
            out += unzip.decompress(chunk, JSON_BYTES_MAX + 1 - len(out))
            if len(out) > JSON_BYTES_MAX:
                return "body-too-large"
    except zlib.error:
        return "bad-encoding"
    return bytes(out) if unzip.eof else "bad-encoding"


class StrictJson(FlaskParser):
    """Reads JSON bodies: says what is wrong with one that is none."""

    def _raw_load_json(self, req: Request) -> Any:  # noqa: ANN401  # any JSON
        if not req.is_json:
            raise ProblemError("not-json")
        try:
            return strict_json(req.get_data())
        except (ValueError, RecursionError) as error:
            raise ProblemError("bad-json") from error
