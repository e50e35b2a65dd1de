"""The frozen values that the store hands out; rows never leave this room."""

from dataclasses import dataclass
from typing import Literal

Role = Literal["technician", "foreman", "owner"]
ROLES: tuple[Role, ...] = ("technician", "foreman", "owner")


@dataclass(frozen=True, slots=True)
class Server:
    """Which installation answers, and how often it was restored."""

    instance: str
    epoch: int


@dataclass(frozen=True, slots=True)
class Workshop:
    """A workshop; `units` is `metric` or `us`, `plate_forms` as in `people.plate_forms`."""

    id: str
    name: str
    units: str
    plate_forms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Person:
    """A person of a workshop, without the secret."""

    id: str
    workshop: str
    name: str
    role: Role
    active: bool


@dataclass(frozen=True, slots=True)
class Device:
    """A phone or desk computer; `revoked` when it was shut out."""

    id: str
    workshop: str
    name: str
    revoked: bool


@dataclass(frozen=True, slots=True)
class SignedIn:
    """Who is at which device, in which workshop."""

    person: Person
    device: Device
    workshop: Workshop


@dataclass(frozen=True, slots=True)
class Blob:
    """A photo or sound that is held in full. `sha256` names it; `stored_sha256` is that of the bytes on disk."""

    sha256: str
    mime: str
    sent_bytes: int
    stored_bytes: int
    stored_sha256: str
    width: int | None
    height: int | None


@dataclass(frozen=True, slots=True)
class Revision:
    """A signed revision of a card: the entries up to `arrival`, frozen as `sha256`, signed by `entry`."""

    card: str
    revision: int
    workshop: str
    entry: str
    arrival: int
    sha256: str
    made_at: str
