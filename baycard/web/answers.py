"""How answers are written: compact JSON that names the server, compressed when that pays."""

import gzip
import json
from typing import Any

from flask import Flask, Response, request

from baycard.web.parts import parts

WORTH_COMPRESSING_BYTES = 1_000
LEVEL = 6
TEXTS = ("application/json", "application/problem+json", "text/", "application/manifest+json")


def answer(status: int = 200, **members: Any) -> Response:  # noqa: ANN401  # any JSON
    """A JSON answer that names the server."""
    return json_answer({"server": server_json(), **members}, status)


def server_json() -> dict[str, object]:
    """The server's instance and epoch as every answer carries them."""
    server = parts().server
    return {"instance": server.instance, "epoch": server.epoch}


def server_text() -> str:
    """The same as JSON text."""
    return json.dumps(server_json(), separators=(",", ":"))


def json_answer(value: object, status: int = 200) -> Response:
    """A JSON answer that is not kept by anybody on the way."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    made = Response(text, status, content_type="application/json")
    made.headers["Cache-Control"] = "no-store"
    return made


def nothing() -> Response:
    """An answer without a body, for what is asked all day. The server is named in a header."""
    made = Response(status=204)
    made.headers.remove("Content-Type")
    made.headers["Cache-Control"] = "no-store"
    return made


def compress_answers(app: Flask) -> None:
    """Compress what is long enough, for whoever takes gzip."""
    app.after_request(_compress)


def _compress(made: Response) -> Response:
    content = made.content_type or ""
    if made.is_streamed or not content.startswith(TEXTS) or "Content-Encoding" in made.headers:
        return made
    if made.headers.get("Cache-Control") != "no-store":  # what nobody stores nobody mixes up
        made.vary.add("Accept-Encoding")
    if request.accept_encodings.quality("gzip") == 0 or request.method == "HEAD":
        return made
    data = made.get_data()
    if len(data) < WORTH_COMPRESSING_BYTES:
        return made
    made.set_data(gzip.compress(data, LEVEL, mtime=0))
    made.headers["Content-Encoding"] = "gzip"
    return made
