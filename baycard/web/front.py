"""Serves the built front end: one page for every screen, files with a hash in their name for ever."""

import re
from pathlib import Path

from flask import Blueprint, Response, request
from werkzeug.exceptions import NotFound
from werkzeug.routing import PathConverter
from werkzeug.security import safe_join

front = Blueprint("front", __name__)

STATIC = Path(__file__).with_name("static")
HASHED = re.compile(r"-[A-Za-z0-9_-]{8,}\.[a-z0-9]+$")
FOR_EVER = "public, max-age=31536000, immutable"
TYPES = {
    ".js": "text/javascript",
    ".css": "text/css",
    ".html": "text/html",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
    ".wasm": "application/wasm",
}
NOT_BUILT = "The screens are not built yet. Build the folder frontend, then load this page again.\n"


class OutsideApi(PathConverter):
    """A path that is not the API's, so that the API itself says which of its methods are allowed."""

    regex = "(?!api/).+"


@front.get("/")
@front.get("/bay/")
@front.get("/bay/<path:rest>")
@front.get("/desk/")
@front.get("/desk/<path:rest>")
@front.get("/bay")
@front.get("/desk")
def page(rest: str = "") -> Response:
    """The one page; the app on it reads the address itself."""
    index = STATIC / "index.html"
    if not index.is_file():
        return Response(NOT_BUILT, 503, content_type="text/plain; charset=utf-8")
    return _file(index, "no-cache")


@front.get("/<outside_api:name>")
def file(name: str) -> Response:
    """A file of the front end."""
    joined = safe_join(str(STATIC), name)
    if joined is None or not Path(joined).is_file():
        raise NotFound
    return _file(Path(joined), FOR_EVER if HASHED.search(name) else "no-cache")


def _file(path: Path, cache: str) -> Response:
    made = Response(path.read_bytes(), mimetype=TYPES.get(path.suffix, "application/octet-stream"))
    made.add_etag()
    made.headers["Cache-Control"] = cache
    made.make_conditional(request)
    return made
