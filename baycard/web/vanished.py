"""Notices phones that vanished in mid-upload: a link that breaks without a word would hold its thread for ever."""

import os
import socket
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from threading import Thread

# The other side is asked after 20 s of silence, and given up a minute after its last sign of life.
ASKED_AFTER_S, ASKED_EVERY_S, ASKED_TIMES = 20, 10, 4
LOOK_EVERY_S = 0.05
LOOKS = 600
OPEN_FILES = Path("/proc/self/fd")
INTERNET = frozenset({socket.AF_INET, socket.AF_INET6})


def notice_vanished() -> None:
    """Let the system ask silent connections whether they are alive, as soon as this process listens (Linux only).

    The server makes its socket after the app and has no setting for this; connections take it over from that socket.
    """
    if sys.platform == "linux":
        Thread(target=_wait_and_set, daemon=True).start()


def _wait_and_set() -> None:
    for _ in range(LOOKS):
        if sum(_ask_the_silent(listening) for listening in _listening()):
            return
        time.sleep(LOOK_EVERY_S)


def _ask_the_silent(listening: socket.socket) -> bool:
    with closing(listening):
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE, 1)
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPIDLE, ASKED_AFTER_S)
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPINTVL, ASKED_EVERY_S)
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPCNT, ASKED_TIMES)
    return True


def _listening() -> Iterator[socket.socket]:
    """Second handles on the sockets of this process that wait for connections."""
    for name in list(OPEN_FILES.iterdir()):
        found = _socket(int(name.name))
        if found is None:
            continue
        if found.family in INTERNET and found.getsockopt(socket.SOL_SOCKET, socket.SO_ACCEPTCONN):
            yield found
        else:
            found.close()


def _socket(number: int) -> socket.socket | None:
    try:
        handle = os.dup(number)
    except OSError:  # closed meanwhile
        return None
    try:
        return socket.socket(fileno=handle)
    except OSError:  # another kind of file
        os.close(handle)
        return None
