"""Signing in and out, shutting out and letting in."""

from base64 import urlsafe_b64decode
from datetime import UTC, datetime, timedelta
from hashlib import sha256

import pytest

from baycard.people.admit import give_secret
from baycard.people.attempts import Attempts
from baycard.people.sign_in import NotSignedIn, Wish, sign_in
from tests.api.test_fences import ROUTES, ask
from tests.support.photos import jpeg, scene
from tests.support.server import InProcess, World, secret_of


def enter(visitor: InProcess, name: str, secret: str, device: str | None = None) -> tuple[int, str]:
    wish = {"name": name, "secret": secret, "device_name": "phone", "device": device}
    answer = visitor.post("/api/people/sign-in", wish)
    return answer.status, answer.json.get("code", "")


def test_signing_in_tells_who_where_and_which_server(world: World) -> None:
    visitor = world.visitor()
    answer = visitor.enter("Ines Varga")
    assert answer.json["person"]["name"] == "Ines Varga"
    assert answer.json["person"]["role"] == "technician"
    assert answer.json["workshop"]["name"] == "Tern Street Garage"
    assert answer.json["workshop"]["units"] == "metric"
    assert set(answer.json["server"]) == {"instance", "epoch"}
    assert visitor.get("/api/people/me").json == answer.json


def test_a_name_is_known_in_any_case_and_spacing(world: World) -> None:
    assert enter(world.visitor(), "  ines   VARGA ", secret_of("Ines Varga")) == (200, "")


@pytest.mark.parametrize("name", ["Ines Varga", "Nobody Known"])
def test_a_wrong_secret_and_an_unknown_name_get_the_same_answer(world: World, name: str) -> None:
    assert enter(world.visitor(), name, "wrong-secret") == (401, "wrong-name-or-secret")


def test_guessing_is_stopped_for_that_name_but_not_for_a_colleague(world: World) -> None:
    visitor = world.visitor()
    for _ in range(10):
        assert enter(visitor, "Ines Varga", "wrong-secret")[1] == "wrong-name-or-secret"
    assert enter(visitor, "Ines Varga", secret_of("Ines Varga")) == (429, "too-many-tries")
    assert enter(visitor, "Tom Abara", secret_of("Tom Abara"))[0] == 200


def test_failures_are_forgotten_after_a_quarter_of_an_hour() -> None:
    now = [0.0]
    attempts = Attempts(lambda: now[0])
    for _ in range(10):
        attempts.failed("ines", "10.0.0.1")
    assert attempts.wait_s("ines", "10.0.0.1") > 0
    assert attempts.wait_s("ines", "10.0.0.2") == 0
    now[0] = 15 * 60
    assert attempts.wait_s("ines", "10.0.0.1") == 0


def test_an_address_that_tries_every_name_is_stopped_too() -> None:
    attempts = Attempts(lambda: 0.0)
    for number in range(60):
        attempts.failed(f"name {number}", "10.0.0.1")
    assert attempts.wait_s("ines", "10.0.0.1") > 0


def test_a_known_device_keeps_its_id_and_a_foreign_one_is_not_taken_over(world: World, ines: InProcess) -> None:
    assert world.sign_in("Tom Abara", ines.device).device == ines.device
    assert world.sign_in("Tom Abara", world.neighbour.device).device != world.neighbour.device


def test_after_signing_out_the_session_is_worth_nothing(world: World, ines: InProcess) -> None:
    cookie = ines.client.get_cookie("baycard")
    assert cookie is not None
    assert ines.post("/api/people/sign-out").status == 200
    thief = world.visitor()
    thief.client.set_cookie("baycard", cookie.value)
    assert thief.get("/api/people/me").json["code"] == "not-signed-in"


def test_only_a_hash_of_the_session_is_kept(world: World, ines: InProcess) -> None:
    cookie = ines.client.get_cookie("baycard")
    assert cookie is not None and len(urlsafe_b64decode(cookie.value + "=")) == 32
    files = [path.read_bytes() for path in world.settings.folder.iterdir() if path.is_file()]
    assert not any(cookie.value.encode() in content for content in files)


def test_the_cookie_is_out_of_reach_for_scripts_and_other_sites(world: World) -> None:
    header = world.visitor().enter("Ines Varga").headers["Set-Cookie"]
    assert "HttpOnly" in header and "SameSite=Strict" in header and "Path=/" in header


def test_over_https_the_cookie_is_bound_to_this_host(world: World) -> None:
    client = world.app.test_client()
    wish = {"name": "Ines Varga", "secret": secret_of("Ines Varga"), "device_name": "phone"}
    answer = client.post("/api/people/sign-in", json=wish, headers={"X-Baycard": "1"}, base_url="https://localhost")
    assert answer.headers["Set-Cookie"].startswith("__Host-baycard=")
    assert "Secure" in answer.headers["Set-Cookie"]
    assert "max-age=31536000" in answer.headers["Strict-Transport-Security"]


def test_a_device_that_is_shut_out_hears_why_at_its_next_request(
    world: World, ines: InProcess, ruth: InProcess
) -> None:
    card = ines.new_card()
    assert ruth.post(f"/api/people/devices/{ines.device}/revoke").status == 200
    assert ines.get("/api/people/me").json["code"] == "device-revoked"
    assert ines.post("/api/sync/push", {"entries": [card.fact()]}).status == 403
    assert enter(world.visitor(), "Ines Varga", secret_of("Ines Varga"), ines.device) == (403, "device-revoked")


def test_what_a_shut_out_device_recorded_is_taken_once_the_foreman_lets_it_in(
    world: World, ines: InProcess, ruth: InProcess
) -> None:
    entry = ines.new_card().fact()
    ruth.post(f"/api/people/devices/{ines.device}/revoke")
    other_phone = world.sign_in("Ines Varga")
    assert other_phone.push([entry])[0]["code"] == "device-revoked"
    ruth.post(f"/api/people/devices/{ines.device}/allow")
    assert ines.get("/api/people/me").status == 401
    assert world.sign_in("Ines Varga", ines.device).push([entry])[0]["outcome"] == "kept"


def test_a_person_who_left_is_out_at_once_and_keeps_the_name_on_old_entries(
    world: World, ines: InProcess, tom: InProcess, olga: InProcess
) -> None:
    assert olga.post(f"/api/people/{ines.person}/deactivate").status == 200
    assert ines.get("/api/people/me").status == 401
    assert enter(world.visitor(), "Ines Varga", secret_of("Ines Varga")) == (401, "wrong-name-or-secret")
    assert "Ines Varga" in [person["name"] for person in tom.get("/api/people/names").json["people"]]
    olga.post(f"/api/people/{ines.person}/activate")
    assert enter(world.visitor(), "Ines Varga", secret_of("Ines Varga")) == (200, "")


def test_the_foreman_sees_who_used_each_device_last_and_which_is_shut_out(
    world: World, ines: InProcess, ruth: InProcess
) -> None:
    world.sign_in("Tom Abara", ines.device)
    assert ruth.post(f"/api/people/devices/{ines.device}/revoke").status == 200
    devices = {device["id"]: device for device in ruth.get("/api/people/devices").json["devices"]}
    phone, desk = devices[ines.device], devices[ruth.device]
    assert (phone["revoked"], desk["revoked"]) == (True, False)
    assert phone["last"]["name"] in {"Ines Varga", "Tom Abara"}
    assert desk["last"]["name"] == "Ruth Okello"
    assert datetime.now(UTC) - datetime.fromisoformat(desk["last"]["at"]) < timedelta(hours=1)


def test_who_was_kept_out_is_told_among_the_people(ines: InProcess, olga: InProcess) -> None:
    olga.post(f"/api/people/{ines.person}/deactivate")
    active = {person["name"]: person["active"] for person in olga.get("/api/people/names").json["people"]}
    assert (active["Ines Varga"], active["Olga Tern"]) == (False, True)


def test_entries_that_somebody_recorded_before_leaving_are_still_taken(
    ines: InProcess, tom: InProcess, olga: InProcess
) -> None:
    entry = ines.new_card().fact(device=tom.device)
    olga.post(f"/api/people/{ines.person}/deactivate")
    assert tom.push([entry])[0]["outcome"] == "kept"


def test_names_are_those_of_ones_own_workshop(world: World, ines: InProcess) -> None:
    names = [person["name"] for person in ines.get("/api/people/names").json["people"]]
    assert names == ["Ines Varga", "Olga Tern", "Ruth Okello", "Tom Abara"]


def test_the_owner_enters_people_and_weak_or_taken_ones_are_told(world: World, olga: InProcess) -> None:
    def add(name: str, secret: str) -> tuple[int, str]:
        answer = olga.post("/api/people", {"name": name, "role": "technician", "secret": secret})
        return answer.status, answer.json.get("code", "")

    assert add("Nia Reed", "long-enough-secret") == (201, "")
    assert enter(world.visitor(), "Nia Reed", "long-enough-secret") == (200, "")
    assert add("nia  REED", "long-enough-secret") == (409, "name-taken")
    assert add("Max Reed", "short") == (422, "weak-secret")
    assert add("Max Reedish", "max reedish") == (422, "weak-secret")
    assert add("Piet Gull", "a-name-of-the-neighbours") == (201, "")


def test_a_new_secret_ends_the_sign_ins_of_the_old_one_and_what_waits_goes_after_signing_in(
    world: World, ines: InProcess, olga: InProcess
) -> None:
    waits = ines.new_card().fact()
    assert olga.post(f"/api/people/{ines.person}/secret", {"secret": "goose-lamp-41"}).json["person"]["name"]
    assert ines.post("/api/sync/push", {"entries": [waits]}).json["code"] == "not-signed-in"
    assert enter(ines, "Ines Varga", secret_of("Ines Varga"), ines.device) == (401, "wrong-name-or-secret")
    assert enter(ines, "Ines Varga", "goose-lamp-41", ines.device) == (200, "")
    assert ines.push([waits])[0]["outcome"] == "kept"


def test_an_owner_with_a_new_secret_goes_on_where_it_was_given_and_nowhere_else(world: World, olga: InProcess) -> None:
    elsewhere = world.sign_in("Olga Tern")
    assert olga.post(f"/api/people/{olga.person}/secret", {"secret": "goose-lamp-41"}).status == 200
    assert olga.get("/api/people/me").status == 200
    assert elsewhere.get("/api/people/me").json["code"] == "not-signed-in"


@pytest.mark.parametrize("secret", ["short", "ines varga", "aaaaaaaaaa"])
def test_a_weak_new_secret_is_refused_and_the_old_one_holds(
    world: World, ines: InProcess, olga: InProcess, secret: str
) -> None:
    assert olga.post(f"/api/people/{ines.person}/secret", {"secret": secret}).json["code"] == "weak-secret"
    assert ines.get("/api/people/me").status == 200
    assert enter(world.visitor(), "Ines Varga", secret_of("Ines Varga")) == (200, "")


def test_a_new_secret_lets_nobody_in_who_is_kept_out(world: World, ines: InProcess, olga: InProcess) -> None:
    olga.post(f"/api/people/{ines.person}/deactivate")
    assert olga.post(f"/api/people/{ines.person}/secret", {"secret": "goose-lamp-41"}).status == 200
    assert enter(world.visitor(), "Ines Varga", "goose-lamp-41") == (401, "wrong-name-or-secret")


def test_whoever_tried_too_often_signs_in_at_once_with_the_new_secret(
    world: World, ines: InProcess, olga: InProcess
) -> None:
    visitor = world.visitor()
    for _ in range(10):
        enter(visitor, "Ines Varga", "wrong-secret")
    assert enter(visitor, "Ines Varga", secret_of("Ines Varga")) == (429, "too-many-tries")
    olga.post(f"/api/people/{ines.person}/secret", {"secret": "goose-lamp-41"})
    assert enter(visitor, "Ines Varga", "goose-lamp-41") == (200, "")


def test_the_old_secret_signs_nobody_in_while_the_new_one_is_being_kept(world: World, ines: InProcess) -> None:
    def changed_meanwhile(count: int) -> bytes:
        give_secret(world.store, ines.workshop, ines.person, "goose-lamp-41")
        return bytes(count)

    wish = Wish("Ines Varga", secret_of("Ines Varga"), "phone", None)
    assert sign_in(world.store, wish, 0, changed_meanwhile) == NotSignedIn("wrong-name-or-secret")


def test_who_knows_the_old_secret_takes_a_new_one_and_is_signed_out_everywhere_else(
    world: World, ines: InProcess
) -> None:
    elsewhere = world.sign_in("Ines Varga")
    wish = {"old": secret_of("Ines Varga"), "secret": "goose-lamp-41"}
    assert ines.post("/api/people/me/secret", wish | {"secret": "ines varga"}).json["code"] == "weak-secret"
    assert ines.post("/api/people/me/secret", wish).json["person"]["id"] == ines.person
    assert ines.get("/api/people/me").status == 200
    assert elsewhere.get("/api/people/me").json["code"] == "not-signed-in"
    assert enter(world.visitor(), "Ines Varga", "goose-lamp-41") == (200, "")


def test_an_unlocked_phone_in_other_hands_is_not_enough_to_take_a_new_secret(world: World, ines: InProcess) -> None:
    guess = {"old": "a-guess-at-it", "secret": "goose-lamp-41"}
    answers = [ines.post("/api/people/me/secret", guess).json["code"] for _ in range(11)]
    assert answers == ["wrong-old-secret"] * 10 + ["too-many-tries"]
    assert ines.get("/api/people/me").status == 200
    assert enter(world.visitor(), "Ines Varga", "goose-lamp-41")[0] == 429


def test_nobody_shuts_the_own_person_out(olga: InProcess) -> None:
    assert olga.post(f"/api/people/{olga.person}/deactivate").json["code"] == "not-yourself"


@pytest.mark.parametrize("route", sorted(ROUTES))
def test_a_device_that_was_shut_out_can_read_and_write_nothing(
    world: World, ines: InProcess, olga: InProcess, route: str
) -> None:
    lost = world.sign_in("Olga Tern")
    entry, photo = ines.new_card().fact("SECRET 1"), jpeg(scene(64, 48))
    ines.push([entry])
    ines.put(sha256(photo).hexdigest(), photo)
    olga.post(f"/api/people/devices/{lost.device}/revoke")
    answer = ask(lost, route)
    assert (answer.status, answer.json["code"]) == (403, "device-revoked")
    assert b"SECRET" not in answer.data
    held = lost.call("HEAD", f"/api/blobs/{sha256(photo).hexdigest()}")
    assert held.status == 403 and "Upload-Offset" not in held.headers
    assert lost.get(f"/api/blobs/{sha256(photo).hexdigest()}").status == 403


def test_a_session_of_a_device_that_was_shut_out_is_not_revived_by_letting_it_in(
    ines: InProcess, ruth: InProcess
) -> None:
    ruth.post(f"/api/people/devices/{ines.device}/revoke")
    ruth.post(f"/api/people/devices/{ines.device}/allow")
    assert ines.get("/api/sync/pull").json["code"] == "not-signed-in"
