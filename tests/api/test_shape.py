"""The shape of every answer: problems, headers, the description of the API."""

import json
from pathlib import Path

import pytest

from baycard.web.problems import ENTRY_CODES, PROBLEMS
from tests.api.test_fences import OPEN, ROUTES
from tests.support.server import Answer, InProcess, World

SECURITY_HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' blob:; media-src 'self' blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "font-src 'self'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    "Permissions-Policy": "camera=(self), microphone=(self), geolocation=(), payment=(), usb=()",
}

HEADERS_OF_DATA = {
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def assert_problem(answer: Answer) -> None:
    assert answer.headers["Content-Type"] == "application/problem+json"
    assert answer.headers["Cache-Control"] == "no-store"
    problem = answer.json
    assert problem["status"] == answer.status
    assert problem["code"] in PROBLEMS
    assert problem["title"] and problem["do"]
    assert set(problem["server"]) == {"instance", "epoch"}


@pytest.mark.parametrize("route", sorted([*ROUTES, *OPEN]))
def test_a_method_that_is_not_allowed_is_told_those_that_are(ines: InProcess, route: str) -> None:
    method, path = route.split(" ")
    answer = ines.call("DELETE", path)
    assert answer.status == 405
    assert method in answer.headers["Allow"]
    assert_problem(answer)


@pytest.mark.parametrize(
    "path", ["/api", "/api/", "/api/nothing", "/api/people/x/y/z", "/nothing.js", "/../etc/passwd"]
)
def test_what_is_not_there_is_a_problem_too(ines: InProcess, path: str) -> None:
    answer = ines.get(path)
    assert answer.status == 404
    assert_problem(answer)


@pytest.mark.parametrize("route", ROUTES)
def test_every_refusal_has_the_one_shape_and_every_answer_the_headers(world: World, route: str) -> None:
    method, path = route.split(" ")
    answer = world.visitor().call(method, path)
    assert_problem(answer)
    assert {name: answer.headers.get(name) for name in HEADERS_OF_DATA} == HEADERS_OF_DATA


def test_every_page_has_the_security_headers(world: World) -> None:
    headers = world.visitor().get("/").headers
    assert {name: headers.get(name) for name in SECURITY_HEADERS} == SECURITY_HEADERS


def test_a_fault_of_ours_says_so_without_telling_how_it_is_built(
    world: World, ines: InProcess, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("the inner workings")

    monkeypatch.setattr("baycard.web.sync.card_held", broken)
    answer = ines.get("/api/sync/digest/01a2b3c4-0000-7000-8000-000000000000")
    assert answer.status == 500
    assert_problem(answer)
    assert b"inner workings" not in answer.data


def test_every_problem_says_what_the_person_can_do() -> None:
    for code, problem in PROBLEMS.items():
        assert problem.title.endswith("."), code
        assert problem.do.endswith("."), code
        assert 400 <= problem.status < 600, code
    assert set(ENTRY_CODES) <= set(PROBLEMS)


def test_every_code_that_the_rooms_refuse_with_is_in_the_table() -> None:
    source = Path(__file__).resolve().parents[2] / "baycard"
    text = "\n".join(path.read_text() for path in (source / "web").glob("*.py"))
    for code in PROBLEMS:
        assert f'"{code}"' in text or code in ENTRY_CODES, code


def test_the_description_is_openapi_3_1_and_names_every_route(world: World, ines: InProcess) -> None:
    document = ines.get("/api/openapi.json").json
    assert document["openapi"].startswith("3.1")
    described = {
        f"{method.upper()} {path}" for path, item in document["paths"].items() for method in item if method in METHODS
    }
    assert len(described) == len(ROUTES) + len(OPEN) - 1


def test_every_reference_in_the_description_leads_somewhere(ines: InProcess) -> None:
    document = ines.get("/api/openapi.json").json
    text = json.dumps(document)
    for part in text.split('"$ref": "#/')[1:]:
        node = document
        for key in part.split('"')[0].split("/"):
            node = node[key]


def test_every_operation_describes_its_errors_as_problems(ines: InProcess) -> None:
    document = ines.get("/api/openapi.json").json
    for path, item in document["paths"].items():
        for method in set(item) & METHODS:
            responses = item[method]["responses"]
            assert "default" in responses, (method, path)
    error = document["components"]["responses"]["DEFAULT_ERROR"]["content"]
    assert list(error) == ["application/problem+json"]


METHODS = {"get", "put", "post", "delete", "patch"}
