"""Who may call what: the session behind the cookie, the role a deed needs, and that the request is the app's own."""

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar
from urllib.parse import urlsplit

from flask import Response, g, request

from baycard.people.roles import Deed, may
from baycard.people.sign_in import SESSION_S, token_hash
from baycard.store.sessions import signed_in
from baycard.store.values import SignedIn
from baycard.web.bodies import KNOWN
from baycard.web.parts import parts
from baycard.web.problems import ProblemError

P = ParamSpec("P")
R = TypeVar("R")

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})


def refuse_foreign_requests() -> None:
    """Before each request: one that changes something must carry our header and come from our own pages."""
    if request.method in SAFE_METHODS:
        return
    origin = request.headers.get("Origin")
    foreign = origin is not None and urlsplit(origin).netloc != request.host
    elsewhere = request.headers.get("Sec-Fetch-Site", "same-origin") not in {"same-origin", "none"}
    if foreign or elsewhere or request.headers.get("X-Baycard") != "1":
        raise ProblemError("cross-site")


def cookie_name() -> str:
    """The session cookie; its strict name needs https."""
    return "__Host-baycard" if request.is_secure else "baycard"


def set_session(made: Response, token: str) -> None:
    """Give the browser its session."""
    made.set_cookie(
        cookie_name(), token, max_age=SESSION_S, path="/", httponly=True, samesite="Strict", secure=request.is_secure
    )


def drop_session(made: Response) -> None:
    """Take the session from the browser."""
    made.delete_cookie(cookie_name(), path="/", httponly=True, samesite="Strict", secure=request.is_secure)


def who() -> SignedIn:
    """Who is asking. Answers 401 for nobody, 403 for a device that was shut out."""
    found: SignedIn | None = g.get("who")
    if found is None:
        found = g.who = _find()
    return found


def needs(deed: Deed) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Let only those call a route whose role may do this deed."""

    def guard(route: Callable[P, R]) -> Callable[P, R]:
        @wraps(route)
        def guarded(*args: P.args, **kwargs: P.kwargs) -> R:
            if not may(who().person.role, deed):
                raise ProblemError("role")
            return route(*args, **kwargs)

        return guarded

    return guard


def _find() -> SignedIn:
    token = request.cookies.get(cookie_name())
    if not token:
        raise ProblemError("not-signed-in")
    made = parts()
    with made.store.read() as tx:
        found = signed_in(tx, token_hash(token), made.clock.now_ms() // 1000)
    if found is None or not found.person.active:
        raise ProblemError("not-signed-in")
    request.environ[KNOWN] = True
    if found.device.revoked:
        raise ProblemError("device-revoked")
    return found
