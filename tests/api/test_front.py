"""The built front end as it is served: one page for every screen, long life only for files named by their content."""

from pathlib import Path

import pytest

from tests.support.server import InProcess, World


@pytest.fixture
def built(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A small front end in place of the real one."""
    static = tmp_path / "static"
    (static / "assets").mkdir(parents=True)
    (static / "index.html").write_text("<!doctype html><title>Baycard</title>" + " " * 2000)
    (static / "sw.js").write_text("self.x = 1")
    (static / "assets" / "main-DwR3_x9a.js").write_text("export {}")
    (static / "manifest.webmanifest").write_text("{}")
    (tmp_path / "secret.txt").write_text("not for you")
    monkeypatch.setattr("baycard.web.front.STATIC", static)
    return static


@pytest.mark.parametrize("path", ["/", "/bay", "/bay/", "/bay/card/1/walk", "/desk", "/desk/", "/desk/card/1"])
def test_every_screen_is_the_one_page_and_needs_no_sign_in(world: World, built: Path, path: str) -> None:
    answer = world.visitor().get(path)
    assert (answer.status, answer.headers["Cache-Control"]) == (200, "no-cache")
    assert answer.headers["Content-Type"].startswith("text/html")
    assert b"<title>Baycard</title>" in answer.data
    assert "script-src 'self' 'wasm-unsafe-eval'" in answer.headers["Content-Security-Policy"]


def test_the_service_worker_is_always_asked_for_anew(world: World, built: Path) -> None:
    answer = world.visitor().get("/sw.js")
    assert answer.headers["Cache-Control"] == "no-cache"
    assert answer.headers["Content-Type"].startswith("text/javascript")


def test_a_file_named_by_its_content_is_kept_for_ever(world: World, built: Path) -> None:
    assert "immutable" in world.visitor().get("/assets/main-DwR3_x9a.js").headers["Cache-Control"]
    assert world.visitor().get("/manifest.webmanifest").headers["Content-Type"].startswith("application/manifest+json")


def test_a_page_that_did_not_change_is_not_sent_again(world: World, built: Path) -> None:
    first = world.visitor().get("/")
    again = world.visitor().get("/", {"If-None-Match": first.headers["ETag"]})
    assert (again.status, again.data) == (304, b"")


@pytest.mark.parametrize(
    "path", ["/../secret.txt", "/assets/../../secret.txt", "/%2e%2e/secret.txt", "/assets", "/x.js"]
)
def test_nothing_outside_the_front_end_is_served(world: World, built: Path, path: str) -> None:
    assert world.visitor().get(path).status == 404


def test_a_server_without_screens_says_so(ines: InProcess, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("baycard.web.front.STATIC", tmp_path / "none")
    answer = ines.get("/")
    assert answer.status == 503
    assert b"not built" in answer.data
