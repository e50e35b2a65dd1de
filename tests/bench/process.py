"""A server process under measurement: started, asked for its CPU time and memory by /proc, and ended."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from baycard.web.serve import THREADS
from tests.support.server import furnish

ROOT = Path(__file__).resolve().parents[2]
START_S = 30.0
TICKS_PER_S = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Served:
    """A running server on the loopback; every process of its group counts as its own."""

    port: int
    group: int

    def cpu_s(self) -> float:
        """CPU seconds spent so far, in user and system mode."""
        return sum(int(fields[11]) + int(fields[12]) for fields in self._stats()) / TICKS_PER_S

    def memory_mb(self) -> float:
        """Resident memory now, in MB."""
        return self._status_mb("VmRSS:")

    def peak_mb(self) -> float:
        """The most resident memory so far, in MB."""
        return self._status_mb("VmHWM:")

    def _processes(self) -> list[tuple[Path, list[str]]]:
        found = []
        for folder in Path("/proc").glob("[0-9]*"):
            try:
                fields = (folder / "stat").read_text().rpartition(")")[2].split()
            except (FileNotFoundError, ProcessLookupError):
                continue
            if int(fields[2]) == self.group:
                found.append((folder, fields))
        return found

    def _stats(self) -> list[list[str]]:
        return [fields for _, fields in self._processes()]

    def _status_mb(self, name: str) -> float:
        lines = [line for folder, _ in self._processes() for line in (folder / "status").read_text().splitlines()]
        return sum(int(line.split()[1]) for line in lines if line.startswith(name)) / 1024


@contextmanager
def baycard(folder: Path) -> Iterator[Served]:
    """The real server over a furnished data folder."""
    folder.mkdir(parents=True)
    furnish(folder)
    port = free_port()
    command = [sys.executable, "-m", "baycard", "serve", "--port", str(port), "--data", str(folder)]
    with _running(command, folder, port, {}) as served:
        yield served


@contextmanager
def floor(folder: Path) -> Iterator[Served]:
    """The floor, under the WSGI server and options that Baycard runs under."""
    folder.mkdir(parents=True)
    port = free_port()
    command = [sys.executable, "-m", "granian", "--interface", "wsgi", "--factory", "--workers", "1"]
    command += ["--blocking-threads", str(THREADS), "--no-ws", "--log-level", "error"]
    command += ["--port", str(port), "tests.bench.floor_server:from_environment"]
    with _running(command, folder, port, {"FLOOR_FOLDER": str(folder)}) as served:
        yield served


@contextmanager
def _running(command: Sequence[str], folder: Path, port: int, environ: Mapping[str, str]) -> Iterator[Served]:
    with (folder / "server.log").open("ab") as log:
        process = subprocess.Popen(
            command, stdout=log, stderr=log, env={**os.environ, **environ}, start_new_session=True, cwd=ROOT
        )
    try:
        _wait(port, process, folder / "server.log")
        yield Served(port, process.pid)
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()


def _wait(port: int, process: subprocess.Popen[bytes], log: Path) -> None:
    deadline = time.monotonic() + START_S
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
        except OSError:
            if process.poll() is not None or time.monotonic() > deadline:
                raise AssertionError(log.read_text()) from None
            time.sleep(0.02)
        else:
            return


def free_port() -> int:
    """A port nobody listens on."""
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
