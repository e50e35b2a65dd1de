"""Signing in and out: a name, a secret and a device become a session token."""

import hashlib
import re
from base64 import urlsafe_b64encode
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from uuid import UUID

from baycard.people.secrets import matches
from baycard.store import people, sessions, workshops
from baycard.store.door import Store, Tx
from baycard.store.values import Device, Person, SignedIn

SESSION_S = 30 * 24 * 3600
CANDIDATES_MAX = 8
TOKEN_BYTES = 32
DEVICE_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")


@dataclass(frozen=True, slots=True)
class Wish:
    """What somebody who signs in says; `device` is the id this device was given before, if any."""

    name: str
    secret: str
    device_name: str
    device: str | None


@dataclass(frozen=True, slots=True)
class Session:
    """A new session; `token` is given to the browser and kept nowhere else."""

    who: SignedIn
    token: str


@dataclass(frozen=True, slots=True)
class NotSignedIn:
    """Why not: `wrong-name-or-secret` or `device-revoked`."""

    code: str


def sign_in(store: Store, wish: Wish, now_s: int, random_bytes: Callable[[int], bytes]) -> Session | NotSignedIn:
    """Check name and secret, find or enter the device, and begin a session of 30 days."""
    with store.read() as tx:
        candidates = people.people_named(tx, wish.name)[:CANDIDATES_MAX]
    known = _whose_secret(candidates, wish.secret)
    if known is None:
        return NotSignedIn("wrong-name-or-secret")
    person, _ = known
    token = urlsafe_b64encode(random_bytes(TOKEN_BYTES)).decode().rstrip("=")  # it travels with every request
    with store.write() as tx:
        if known not in people.people_named(tx, wish.name):  # the secret was changed, or the person kept out, just now
            return NotSignedIn("wrong-name-or-secret")
        device = _device(tx, person, wish, now_s, random_bytes)
        if device.revoked:
            return NotSignedIn("device-revoked")
        workshop = next(shop for shop in workshops.workshops(tx) if shop.id == person.workshop)
        who = SignedIn(person, device, workshop)
        sessions.forget_ended(tx, now_s)
        sessions.add_session(tx, token_hash(token), who, now_s, now_s + SESSION_S)
    return Session(who, token)


def token_hash(token: str) -> str:
    """What is kept of a token."""
    return hashlib.sha256(token.encode()).hexdigest()


def _whose_secret(candidates: list[tuple[Person, str]], secret: str) -> tuple[Person, str] | None:
    if not candidates:
        matches(secret, None)
    return next(((person, kept) for person, kept in candidates if matches(secret, kept) and person.active), None)


def _device(tx: Tx, person: Person, wish: Wish, now_s: int, random_bytes: Callable[[int], bytes]) -> Device:
    known = people.device(tx, wish.device) if wish.device else None
    if known is not None and known.workshop == person.workshop:
        return known
    # A server put back from a backup has forgotten younger devices: what they recorded came from the id they had then.
    forgotten = known is None and wish.device is not None and DEVICE_ID.fullmatch(wish.device)
    id_ = wish.device if wish.device and forgotten else str(UUID(bytes=random_bytes(16), version=4))
    made = Device(id_, person.workshop, wish.device_name, revoked=False)
    people.add_device(tx, made, datetime.fromtimestamp(now_s, UTC).isoformat())
    return made
