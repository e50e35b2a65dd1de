"""Signing in and out, and the people and devices of a workshop."""

from datetime import UTC, datetime
from typing import Any, TypedDict

from flask import Response, request
from marshmallow import Schema, fields, validate

from baycard.people.admit import add_person, change_secret, give_secret, set_device_revoked, set_person_active
from baycard.people.sign_in import NotSignedIn, Session, Wish, sign_in, token_hash
from baycard.store.people import devices_of, name_key, people_of
from baycard.store.sessions import end_session, last_sign_ins
from baycard.store.values import ROLES, Device, Person, Role, SignedIn
from baycard.web.answers import answer
from baycard.web.audit import NEW_SECRET, note
from baycard.web.guard import cookie_name, drop_session, needs, set_session, who
from baycard.web.parts import parts
from baycard.web.problems import ProblemError
from baycard.web.room import Room
from baycard.web.shapes import NamedSchema, ServerName, ServerSchema

people = Room("people", "/api/people", "Who is who, and at which device")
REFUSED = {"unknown-device": "unknown-device-id"}


class SignInFields(TypedDict):
    """What `SignIn` gives after checking."""

    name: str
    secret: str
    device_name: str
    device: str | None


class NewPersonFields(TypedDict):
    """What `NewPerson` gives after checking."""

    name: str
    role: Role
    secret: str


class NewSecretFields(TypedDict):
    """What `NewSecret` gives after checking."""

    secret: str


class OwnSecretFields(NewSecretFields):
    """What `OwnSecret` gives after checking."""

    old: str


class SignIn(Schema):
    """Name, secret and device."""

    name = fields.String(required=True, validate=validate.Length(1, 120))
    secret = fields.String(required=True, validate=validate.Length(1, 200))
    device_name = fields.String(required=True, validate=validate.Length(1, 120))
    device = fields.String(load_default=None, allow_none=True, validate=validate.Length(1, 80))


class NewPerson(Schema):
    """A person to enter."""

    name = fields.String(required=True, validate=validate.Length(1, 120))
    role = fields.String(required=True, validate=validate.OneOf(ROLES))
    secret = fields.String(required=True, validate=validate.Length(1, 200))


class NewSecret(Schema):
    """A secret in place of the old one."""

    secret = fields.String(required=True, validate=validate.Length(1, 200))


class OwnSecret(NewSecret):
    """The same for oneself, with the old one."""

    old = fields.String(required=True, validate=validate.Length(1, 200))


class PersonSchema(NamedSchema):
    """A person as colleagues see it."""

    role = fields.String(required=True, validate=validate.OneOf(ROLES))


class WorkshopSchema(NamedSchema):
    """A workshop, its units, and how plates look there."""

    units = fields.String(required=True, validate=validate.OneOf(("metric", "us")))
    plate_forms = fields.List(fields.String(), required=True)


class Me(Schema):
    """Who is signed in where."""

    server = fields.Nested(ServerName, required=True)
    person = fields.Nested(PersonSchema, required=True)
    device = fields.Nested(NamedSchema, required=True)
    workshop = fields.Nested(WorkshopSchema, required=True)


class ColleagueSchema(PersonSchema):
    """A person, and whether that one may still come in."""

    active = fields.Boolean(required=True)


class Names(Schema):
    """The people of the workshop."""

    server = fields.Nested(ServerName, required=True)
    people = fields.List(fields.Nested(ColleagueSchema), required=True)


class DeviceSchema(NamedSchema):
    """A device and whether it was shut out."""

    revoked = fields.Boolean(required=True)


class LastSignIn(Schema):
    """Who signed in last, and when."""

    name = fields.String(required=True)
    at = fields.DateTime(required=True)


class UsedDeviceSchema(DeviceSchema):
    """A device and the last sign-in at it, as far as it still holds."""

    last = fields.Nested(LastSignIn, required=True, allow_none=True)


class Devices(Schema):
    """The devices of the workshop."""

    server = fields.Nested(ServerName, required=True)
    devices = fields.List(fields.Nested(UsedDeviceSchema), required=True)


@people.on("POST", "/sign-in")
@people.takes(SignIn)
@people.gives(200, Me)
def enter(given: SignInFields) -> Response:
    """Sign in."""
    made, address = parts(), request.remote_addr or ""
    name = name_key(given["name"])
    _hold_guessing_up(name, address)
    wish = Wish(given["name"], given["secret"], given["device_name"], given["device"])
    session = sign_in(made.store, wish, made.clock.now_ms() // 1000, made.random_bytes)
    if isinstance(session, NotSignedIn):
        made.attempts.failed(name, address)
        note("sign-in refused", name=given["name"], code=session.code)
        raise ProblemError(session.code)
    made.attempts.succeeded(name, address)
    note("signed in", name=given["name"], as_person=session.who.person.id, on_device=session.who.device.id)
    return _entered(session)


@people.on("POST", "/sign-out")
@people.gives(200, ServerSchema)
def leave() -> Response:
    """Sign out; nothing that was recorded is touched."""
    session = _session()
    if session:
        with parts().store.write() as tx:
            end_session(tx, session)
    made = answer()
    drop_session(made)
    return made


@people.on("GET", "/me")
@people.gives(200, Me)
def me() -> Response:
    """Who is signed in."""
    return answer(**_me(who()))


@people.on("GET", "/names")
@people.gives(200, Names)
def names() -> Response:
    """The people of the workshop, those who left included: their names stand on old entries."""
    with parts().store.read() as tx:
        found = people_of(tx, who().workshop.id)
    return answer(people=[_person(person) | {"active": person.active} for person in found])


@people.on("GET", "/devices")
@people.gives(200, Devices)
@needs("manage-devices")
def devices() -> Response:
    """The devices of the workshop."""
    with parts().store.read() as tx:
        found, last = devices_of(tx, who().workshop.id), last_sign_ins(tx, who().workshop.id)
    return answer(devices=[_device(device) | {"last": _last(last.get(device.id))} for device in found])


@people.on("POST", "/devices/<device>/revoke")
@people.gives(200, DeviceSchema)
@needs("manage-devices")
def revoke(device: str) -> Response:
    """Shut a device out."""
    return _changed_device(device, revoked=True)


@people.on("POST", "/devices/<device>/allow")
@people.gives(200, DeviceSchema)
@needs("manage-devices")
def allow(device: str) -> Response:
    """Let a device in again; its unsent work can then be sent."""
    return _changed_device(device, revoked=False)


@people.on("POST", "/")
@people.takes(NewPerson)
@people.gives(201, PersonSchema)
@needs("manage-people")
def enter_person(given: NewPersonFields) -> Response:
    """Enter a person."""
    made = add_person(parts().store, who().workshop.id, given["name"], given["role"], given["secret"])
    if not isinstance(made, Person):
        raise ProblemError(REFUSED.get(made, made))
    note("person entered", entered=made.id, role=made.role)
    return answer(201, person=_person(made))


@people.on("POST", "/<uuid:person>/deactivate")
@people.gives(200, PersonSchema)
@needs("manage-people")
def deactivate(person: object) -> Response:
    """Keep a person out, at once on every device."""
    return _changed_person(str(person), active=False)


@people.on("POST", "/<uuid:person>/activate")
@people.gives(200, PersonSchema)
@needs("manage-people")
def activate(person: object) -> Response:
    """Let a person in again."""
    return _changed_person(str(person), active=True)


@people.on("POST", "/<uuid:person>/secret")
@people.takes(NewSecret)
@people.gives(200, PersonSchema)
@needs("manage-people")
def new_secret(given: NewSecretFields, person: object) -> Response:
    """Give a person a new secret; all of that person's sessions end, but for the one that asks."""
    found = give_secret(parts().store, who().workshop.id, str(person), given["secret"], _session())
    if not isinstance(found, Person):
        raise ProblemError(found)
    parts().attempts.forget(name_key(found.name))
    note(NEW_SECRET, changed=found.id)
    return answer(person=_person(found))


@people.on("POST", "/me/secret")
@people.takes(OwnSecret)
@people.gives(200, PersonSchema)
@needs("record")
def own_secret(given: OwnSecretFields) -> Response:
    """Give oneself a new secret; all one's other sessions end."""
    made, me_now, address = parts(), who().person, request.remote_addr or ""
    name = name_key(me_now.name)
    _hold_guessing_up(name, address)
    found = change_secret(made.store, me_now, given["old"], given["secret"], _session())
    if found == "wrong-secret":
        made.attempts.failed(name, address)
        raise ProblemError("wrong-old-secret")
    if not isinstance(found, Person):
        raise ProblemError(found)
    made.attempts.forget(name)
    note(NEW_SECRET, changed=found.id)
    return answer(person=_person(found))


def _hold_guessing_up(name: str, address: str) -> None:
    wait_s = parts().attempts.wait_s(name, address)
    if wait_s:
        raise ProblemError("too-many-tries").with_headers({"Retry-After": str(wait_s)})


def _session() -> str | None:
    """The hash of the token of the session that asks."""
    token = request.cookies.get(cookie_name())
    return token_hash(token) if token else None


def _changed_device(device: str, revoked: bool) -> Response:
    found = set_device_revoked(parts().store, who().person, device, revoked)
    if not isinstance(found, Device):
        raise ProblemError(REFUSED.get(found, found))
    note("device revoked" if revoked else "device allowed", changed=found.id)
    return answer(device=_device(found))


def _changed_person(person: str, active: bool) -> Response:
    found = set_person_active(parts().store, who().person, person, active)
    if not isinstance(found, Person):
        raise ProblemError(found)
    note("person let in" if active else "person kept out", changed=found.id)
    return answer(person=_person(found))


def _entered(session: Session) -> Response:
    made = answer(**_me(session.who))
    set_session(made, session.token)
    return made


def _me(who_is: SignedIn) -> dict[str, Any]:
    shop = who_is.workshop
    return {
        "person": _person(who_is.person),
        "device": {"id": who_is.device.id, "name": who_is.device.name},
        "workshop": {
            "id": shop.id,
            "name": shop.name,
            "units": shop.units,
            "plate_forms": list(shop.plate_forms),
        },
    }


def _last(sign_in: tuple[str, int] | None) -> dict[str, str] | None:
    if sign_in is None:
        return None
    name, at = sign_in
    return {"name": name, "at": datetime.fromtimestamp(at, UTC).isoformat()}


def _person(person: Person) -> dict[str, Any]:
    return {"id": person.id, "name": person.name, "role": person.role}


def _device(device: Device) -> dict[str, Any]:
    return {"id": device.id, "name": device.name, "revoked": device.revoked}
