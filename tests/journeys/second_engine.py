"""Another browser engine (WebKitGTK, the nearest thing here to the browser of an iPhone), driven over W3C WebDriver."""

import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import Any

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
PATIENCE_S = 30.0


def missing() -> list[str]:
    """The Debian packages that this needs and that are not here."""
    wanted = {"webkit2gtk-driver": shutil.which("WebKitWebDriver") and _browser(), "xvfb": shutil.which("Xvfb")}
    return [package for package, found in wanted.items() if not found]


def _browser() -> str | None:
    return next((str(path) for path in sorted(Path("/usr/lib").glob("*/webkit2gtk-4.1/MiniBrowser"))), None)


class Engine:
    """One window of the other engine."""

    def __init__(self, port: int) -> None:
        self._port = port
        options = {"binary": _browser(), "args": ["--automation"]}
        wish = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": options}}}
        self._session: str = self._call("POST", "", wish)["sessionId"]
        self._told("POST", "timeouts", {"script": int(PATIENCE_S * 1000)})

    def opens(self, address: str) -> None:
        """Go to an address."""
        self._told("POST", "url", {"url": address})

    def reloads(self) -> None:
        """The same page anew."""
        self._told("POST", "refresh", {})

    def says(self, script: str) -> Any:
        """What a script of the page returns."""
        return self._told("POST", "execute/sync", {"script": script, "args": []})

    def promises(self, promise: str) -> Any:
        """What a promise of the page becomes."""
        script = f"const done = arguments[arguments.length - 1]; ({promise}).then(done, (e) => done(String(e)));"
        return self._told("POST", "execute/async", {"script": script, "args": []})

    def taps(self, path: str) -> None:
        """Tap what an XPath names, once it is there and can be tapped."""
        self._until(path, self._tap)

    def types(self, path: str, text: str) -> None:
        """Type into a field."""
        self._until(path, lambda element: self._told("POST", f"element/{element}/value", {"text": text}))

    def sees(self, path: str) -> None:
        """Wait until what an XPath names is there."""
        self._until(path, lambda _: None)

    def waits(self, script: str) -> None:
        """Wait until a script of the page returns something true."""
        deadline = time.monotonic() + PATIENCE_S
        while not self.says(script):
            assert time.monotonic() < deadline, f"not true in {PATIENCE_S} s: {script}"
            time.sleep(0.05)

    def ends(self) -> None:
        """Close the window."""
        with suppress(AssertionError, OSError):
            self._call("DELETE", f"/{self._session}")

    def _tap(self, element: str) -> None:
        """In the middle of the screen, where no bar lies over it."""
        script = "arguments[0].scrollIntoView({ block: 'center' })"
        self._told("POST", "execute/sync", {"script": script, "args": [{ELEMENT: element}]})
        self._told("POST", f"element/{element}/click", {})

    def _until(self, path: str, act: Any) -> None:
        deadline = time.monotonic() + PATIENCE_S
        while True:
            try:
                found = self._told("POST", "element", {"using": "xpath", "value": path})
                act(found[ELEMENT])
                return
            except AssertionError as trouble:
                if time.monotonic() > deadline:
                    shown = self.says("return location.pathname + ' ' + document.body.innerText")
                    raise AssertionError(f"{path}: {trouble}\n{shown}") from trouble
                time.sleep(0.05)

    def _told(self, method: str, command: str, body: dict[str, Any] | None = None) -> Any:
        return self._call(method, f"/{self._session}/{command}", body)

    def _call(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        with closing(http.client.HTTPConnection("127.0.0.1", self._port, timeout=60)) as wire:
            wire.request(method, f"/session{path}", None if body is None else json.dumps(body))
            answer = wire.getresponse()
            value = json.loads(answer.read())["value"]
        assert answer.status == 200, value
        return value


@contextmanager
def engine(folder: Path) -> Iterator[Engine]:
    """A window on a screen of its own; both are gone at the end."""
    port = _free_port()
    screen = _screen(folder)
    home = os.environ | {"DISPLAY": screen[1], "HOME": str(folder), "XDG_RUNTIME_DIR": str(folder), "LANG": "C.UTF-8"}
    home |= {"WEBKIT_DISABLE_COMPOSITING_MODE": "1", "NO_AT_BRIDGE": "1"}
    driver = subprocess.Popen(
        ["WebKitWebDriver", f"--port={port}"],
        env=home,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        _wait_for(port)
        window = Engine(port)
        try:
            yield window
        finally:
            window.ends()
    finally:
        for process in (driver, screen[0]):
            with suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGKILL)
            process.wait(timeout=10)


def _screen(folder: Path) -> tuple[subprocess.Popen[bytes], str]:
    """A screen that nobody sees, and its name; it picks a free number itself."""
    told, telling = os.pipe()
    with (folder / "screen.log").open("ab") as log:
        process = subprocess.Popen(
            ["Xvfb", "-displayfd", str(telling), "-screen", "0", "420x820x24", "-nolisten", "tcp"],
            pass_fds=[telling],
            stdout=log,
            stderr=log,
            start_new_session=True,
        )
    os.close(telling)
    with os.fdopen(told) as line:
        number = line.readline().strip()
    assert number, (folder / "screen.log").read_text()
    return process, f":{number}"


def _wait_for(port: int) -> None:
    deadline = time.monotonic() + PATIENCE_S
    while True:
        with closing(socket.socket()) as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        assert time.monotonic() < deadline, "the driver of the other engine does not answer"
        time.sleep(0.02)


def _free_port() -> int:
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
