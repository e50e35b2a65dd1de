"""Every route for every role, for nobody and for another workshop; and the marks of the app's own requests."""

from collections.abc import Callable

import pytest

from baycard.people.roles import MAY
from tests.support.server import JSON, Answer, InProcess, World

ANY_ID = "5b0f2c4e-9f0e-4c67-8a3d-2f6f5d1c7a90"
HASH = "ab" * 32
OPEN = {"GET /api/ping", "POST /api/people/sign-in", "POST /api/people/sign-out", "GET /api/openapi.json"}
EVERYONE = frozenset({"technician", "foreman", "owner"})
DESK = frozenset({"foreman", "owner"})
OWNER = frozenset({"owner"})
ROUTES: dict[str, frozenset[str]] = {
    "GET /api/people/me": EVERYONE,
    "GET /api/people/names": EVERYONE,
    "GET /api/people/devices": DESK,
    f"POST /api/people/devices/{ANY_ID}/revoke": DESK,
    f"POST /api/people/devices/{ANY_ID}/allow": DESK,
    "POST /api/people/": OWNER,
    f"POST /api/people/{ANY_ID}/deactivate": OWNER,
    f"POST /api/people/{ANY_ID}/activate": OWNER,
    "POST /api/people/me/secret": EVERYONE,
    f"POST /api/people/{ANY_ID}/secret": OWNER,
    "POST /api/sync/push": EVERYONE,
    "GET /api/sync/pull": EVERYONE,
    f"GET /api/sync/digest/{ANY_ID}": EVERYONE,
    f"PUT /api/blobs/{HASH}": EVERYONE,
    f"GET /api/blobs/{HASH}": EVERYONE,
    "GET /api/book": EVERYONE,
    "GET /api/checklists/small-check/1": EVERYONE,
    f"POST /api/desk/cards/{ANY_ID}/sign-off": DESK,
    f"GET /api/desk/cards/{ANY_ID}/report/1.pdf": EVERYONE,
    f"POST /api/desk/cards/{ANY_ID}/report/1/send": DESK,
    "POST /api/desk/rescue": DESK,
    "GET /api/events": EVERYONE,
}
NAMES = {"technician": "Tom Abara", "foreman": "Ruth Okello", "owner": "Olga Tern"}
BODIES = {
    "sign-off": {"count": 0, "digest": HASH, "drive": "yes"},
    "push": {"entries": []},
    "send": {"to": "bakery@example.org"},
    "me/secret": {"old": "not-the-old-one", "secret": "long-enough-secret"},
    "/secret": {"secret": "long-enough-secret"},
    "people/": {"name": "N", "role": "technician", "secret": "x"},
}


def ask(caller: InProcess, route: str) -> Answer:
    method, path = route.split(" ")
    if method == "POST":
        body = next((value for end, value in BODIES.items() if path.endswith(end)), {})
        return caller.post(path, body)
    return caller.call(method, path, b"x" if method == "PUT" else b"")


def test_the_list_of_routes_below_is_complete(world: World) -> None:
    adapter = world.app.url_map.bind("localhost")
    listed = set()
    for route in [*ROUTES, *OPEN]:
        method, path = route.split(" ")
        listed.add((method, str(adapter.match(path, method=method, return_rule=True)[0])))
    there = {
        (method, str(rule))
        for rule in world.app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if str(rule).startswith("/api/")
    }
    assert there == listed


@pytest.mark.parametrize("route", ROUTES)
def test_nobody_gets_in_without_signing_in(world: World, route: str) -> None:
    answer = ask(world.visitor(), route)
    assert (answer.status, answer.json["code"]) == (401, "not-signed-in")


@pytest.mark.parametrize("role", NAMES)
def test_each_role_may_do_what_the_table_says_and_nothing_else(world: World, role: str) -> None:
    caller = world.sign_in(NAMES[role])
    refused = {route for route in ROUTES if _code(ask(caller, route)) == "role"}
    assert refused == {route for route, allowed in ROUTES.items() if role not in allowed}


def test_the_table_of_deeds_knows_every_role() -> None:
    assert set().union(*MAY.values()) == EVERYONE


def test_the_neighbours_foreman_cannot_touch_anything_of_ours(world: World, ines: InProcess) -> None:
    card = ines.new_card()
    ines.push([card.fact()])
    fay, otto = world.sign_in("Fay Gull"), world.sign_in("Otto Gull")
    attempts: list[tuple[Callable[[], Answer], int]] = [
        (lambda: fay.post(f"/api/people/devices/{ines.device}/revoke"), 404),
        (lambda: otto.post(f"/api/people/{ines.person}/deactivate"), 404),
        (lambda: otto.post(f"/api/people/{ines.person}/secret", BODIES["/secret"]), 404),
        (lambda: fay.post(f"/api/desk/cards/{card.card}/sign-off", BODIES["sign-off"]), 409),
        (lambda: fay.get(f"/api/desk/cards/{card.card}/report/1.pdf"), 404),
        (lambda: fay.post(f"/api/desk/cards/{card.card}/report/1/send", BODIES["send"]), 404),
    ]
    assert [attempt().status for attempt, _ in attempts] == [status for _, status in attempts]
    assert ines.get("/api/people/me").status == 200
    assert ines.get(f"/api/sync/digest/{card.card}").json["count"] == 1


@pytest.mark.parametrize(
    "headers",
    [
        {"X-Baycard": ""},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_request_that_another_site_could_have_made_is_refused(ines: InProcess, headers: dict[str, str]) -> None:
    for route in [route for route in ROUTES if not route.startswith("GET")]:
        method, path = route.split(" ")
        answer = ines.call(method, path, b"{}", {**JSON, **headers})
        assert (answer.status, answer.json["code"]) == (403, "cross-site"), route


def test_our_own_pages_may_ask(ines: InProcess) -> None:
    headers = {**JSON, "Origin": "http://localhost", "Sec-Fetch-Site": "same-origin"}
    assert ines.call("POST", "/api/sync/push", b'{"entries": []}', headers).status == 200


def _code(answer: Answer) -> str:
    if not answer.headers.get("Content-Type", "").startswith("application/problem"):
        return ""
    return str(answer.json["code"])
