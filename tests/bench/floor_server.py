"""The floor for the server: bare Flask, gzip JSON, one SQLite transaction per 1,000 records, photos as files."""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import sqlite3
from pathlib import Path

from flask import Flask, Response, request

PAGE = 1_000
LEVEL = 6
WORTH_COMPRESSING_BYTES = 1_000
COLUMNS = ("id", "card", "slot", "kind", "body", "replaces", "author", "device", "made_at", "format")


def make_app(database: Path) -> Flask:
    """A server that checks nothing: what plain rows over gzip JSON cost, and no more."""
    with sqlite3.connect(database) as connection:
        connection.execute("PRAGMA journal_mode=WAL")
        connection.execute(f"CREATE TABLE entries (n INTEGER PRIMARY KEY, {', '.join(COLUMNS)})")
        connection.execute("CREATE UNIQUE INDEX by_id ON entries (id)")
    app = Flask(__name__)

    @app.post("/push")
    def push() -> Response:
        body = request.get_data()
        if request.headers.get("Content-Encoding") == "gzip":
            body = gzip.decompress(body)
        entries = json.loads(body)["entries"]
        rows = [
            [json.dumps(entry[name]) if name in ("body", "replaces") else entry[name] for name in COLUMNS]
            for entry in entries
        ]
        connection = sqlite3.connect(database)
        connection.execute("PRAGMA synchronous=FULL")
        places = ", ".join("?" * len(COLUMNS))
        for start in range(0, len(rows), PAGE):
            with connection:
                connection.executemany(
                    f"INSERT INTO entries ({', '.join(COLUMNS)}) VALUES ({places})", rows[start : start + PAGE]
                )
        connection.close()
        return packed({"kept": [entry["id"] for entry in entries]})

    @app.get("/pull")
    def pull() -> Response:
        after = int(request.args["after"])
        connection = sqlite3.connect(database)
        rows = connection.execute(
            f"SELECT n, {', '.join(COLUMNS)} FROM entries WHERE n > ? ORDER BY n LIMIT ?", (after, PAGE)
        ).fetchall()
        connection.close()
        entries = [
            {
                name: json.loads(value) if name in ("body", "replaces") else value
                for name, value in zip(COLUMNS, row[1:], strict=True)
            }
            for row in rows
        ]
        return packed({"entries": entries, "cursor": rows[-1][0] if rows else after})

    @app.put("/blob/<sha256>")
    def put(sha256: str) -> Response:
        data = request.get_data()
        if hashlib.sha256(data).hexdigest() != sha256:
            return Response(status=422)
        with (database.parent / sha256).open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        return Response(status=204)

    return app


def packed(answer: object) -> Response:
    """A gzip JSON answer."""
    body = json.dumps(answer, separators=(",", ":")).encode()
    if len(body) < WORTH_COMPRESSING_BYTES:
        return Response(body, content_type="application/json")
    return Response(gzip.compress(body, LEVEL), content_type="application/json", headers={"Content-Encoding": "gzip"})


def from_environment() -> Flask:
    """The application factory that the WSGI server calls."""
    return make_app(Path(os.environ["FLOOR_FOLDER"]) / "floor.sqlite")
