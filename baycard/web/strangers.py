"""Whose bodies are read: those of people who are signed in, and of a few who are signing in, so that nobody outside
can keep all threads waiting.

A thread that waits for bytes waits for as long as the sender likes.
"""

from threading import Semaphore

from flask import request

from baycard.web.bodies import unpack_body
from baycard.web.guard import SAFE_METHODS, who
from baycard.web.problems import ProblemError

HEARD_OUT_AT_ONCE = 8
SIGNING_IN_AT_ONCE = 16
SIGN_IN_WAIT_S = 0.2
SIGN_IN_BYTES_MAX = 16 * 1024
SIGN_IN, SIGN_OUT = "people.enter", "people.leave"


class Strangers:
    """Places for those who are not signed in."""

    def __init__(self) -> None:
        self.heard_out = Semaphore(HEARD_OUT_AT_ONCE)
        self._signing_in = Semaphore(SIGNING_IN_AT_ONCE)

    def read_body(self) -> None:
        """Before each request: nothing is read of a body before it is known who sends it. Answers 401 for nobody."""
        if request.method in SAFE_METHODS or request.url_rule is None or request.endpoint == SIGN_OUT:
            return
        if request.endpoint == SIGN_IN:
            self._read_sign_in()
        else:
            who()
            unpack_body()

    def _read_sign_in(self) -> None:
        request.max_content_length = SIGN_IN_BYTES_MAX
        if (request.content_length or 0) > SIGN_IN_BYTES_MAX:
            raise ProblemError("body-too-large")
        if not self._signing_in.acquire(timeout=SIGN_IN_WAIT_S):
            raise ProblemError("server-busy").with_headers({"Retry-After": "5"})
        try:
            unpack_body()
            request.get_data()
        finally:
            self._signing_in.release()
