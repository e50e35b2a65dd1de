"""A door before the real server that hands the app out in newer versions, also while the server is down."""

import http.client
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

PASSED_ON = ("Cookie", "Content-Type", "Content-Encoding", "X-Baycard", "Upload-Offset", "Upload-Length", "Accept")


class FrontDoor(ThreadingHTTPServer):
    """Passes everything on, and puts its version number into the service worker."""

    daemon_threads = True
    version = 1

    def __init__(self, server_port: int) -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.server_port_behind = server_port
        self.files: dict[str, tuple[int, list[tuple[str, str]], bytes]] = {}

    @property
    def url(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.server_address[1]}"


class _Handler(BaseHTTPRequestHandler):
    server: FrontDoor

    def do_GET(self) -> None:
        if self.path.startswith("/api/events"):
            self.send_error(503)
            return
        status, headers, body = self._ask()
        if self.path == "/sw.js":
            body += f"\n// version {self.server.version}\n".encode()
        self.send_response(status)
        for name, value in headers:
            if name.lower() in {"content-type", "set-cookie", "x-baycard-server", "upload-offset", "upload-complete"}:
                self.send_header(name, value)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    do_POST = do_PUT = do_GET  # noqa: N815  # the names http.server calls

    def log_message(self, *_arguments: Any) -> None:
        """Say nothing."""

    def _ask(self) -> tuple[int, list[tuple[str, str]], bytes]:
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        sent = {name: self.headers[name] for name in PASSED_ON if name in self.headers}
        try:
            with closing(http.client.HTTPConnection("127.0.0.1", self.server.server_port_behind, timeout=20)) as wire:
                wire.request(self.command, self.path, body, sent)
                answer = wire.getresponse()
                given = (answer.status, answer.getheaders(), answer.read())
        except OSError:
            return self.server.files.get(self.path, (502, [("Content-Type", "text/html")], b"<h1>Bad gateway</h1>"))
        if not self.path.startswith("/api/"):
            self.server.files[self.path] = given
        return given


@contextmanager
def front_door(server_port: int) -> Iterator[FrontDoor]:
    """A running door that is gone at the end."""
    door = FrontDoor(server_port)
    thread = threading.Thread(target=door.serve_forever)
    thread.start()
    try:
        yield door
    finally:
        door.shutdown()
        thread.join()
        door.server_close()
