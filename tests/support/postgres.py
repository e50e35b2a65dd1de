"""A PostgreSQL server of the machine's own, started for the tests when it is installed."""

import os
import pwd
import shutil
import socket
import subprocess
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

PROGRAMS = ("initdb", "pg_ctl")


def is_installed() -> bool:
    """Whether PostgreSQL's programs are there, and somebody who may run them."""
    return all(_program(name) for name in PROGRAMS) and (os.getuid() != 0 or _has_user())


@contextmanager
def running_postgres(folder: Path) -> Iterator[str]:
    """The address of an empty database; the server is gone at the end."""
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    data = folder / "pg"
    folder.chmod(0o755)
    data.mkdir()
    if os.getuid() == 0:
        shutil.chown(data, "postgres", "postgres")
    _run("initdb", "-D", str(data), "-U", "baycard", "--auth=trust", "-N")
    options = f"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={data}"
    _run("pg_ctl", "-D", str(data), "-w", "-o", options, "-l", str(data / "log"), "start")
    try:
        yield f"postgresql+psycopg://baycard@127.0.0.1:{port}/postgres"
    finally:
        _run("pg_ctl", "-D", str(data), "-w", "-m", "immediate", "stop")


def _run(name: str, *arguments: str) -> None:
    # PostgreSQL refuses to run as root; a sparse PATH may lack the folders of root's own tools.
    runuser = shutil.which("runuser") or "/usr/sbin/runuser"
    user = [runuser, "-u", "postgres", "--"] if os.getuid() == 0 else []
    subprocess.run([*user, str(_program(name)), *arguments], check=True, capture_output=True, cwd="/")


def _program(name: str) -> str | None:
    places = sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
    return shutil.which(name) or next((str(place / name) for place in places if (place / name).is_file()), None)


def _has_user() -> bool:
    return any(entry.pw_name == "postgres" for entry in pwd.getpwall())
