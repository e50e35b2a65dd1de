"""Every screen at 360 x 740 in every language and from right to left: nothing cut off, nothing sticks out."""

import json
import os
import re
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, Route, expect

from tests.journeys.browsers import PHONE, browser, first_page
from tests.journeys.pseudo import pseudo_catalogue, right_to_left
from tests.journeys.waits import waits_until
from tests.support.demo_server import DEMO_SECRET, DemoServer, demo_server

CUT_OFF = (Path(__file__).parent / "cut_off.js").read_text(encoding="utf-8")
BAY = ("", "/book-in", "/findings", "/recheck", "/hand-in", "/steps/1/all", "/work-done/new", "/walk/1/all")
CHECKS = ("bearing-play/rim-movement/rear-left", "fluid-leaks/from-where/leak-1")
RIGHT_TO_LEFT = "rtl"
LANGUAGE_OF_KEPT_BOOK = """new Promise((resolve, reject) => {
  const opening = indexedDB.open("baycard");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const asked = opening.result.transaction("meta").objectStore("meta").get("book");
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => { opening.result.close(); resolve(asked.result?.language ?? ""); };
  };
})"""

Opener = Callable[[str], Page]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """The demo workshop with its three cards."""
    with demo_server(tmp_path_factory.mktemp("demo")) as running:
        yield running


@pytest.fixture
def phone(playwright: Playwright, demo: DemoServer, tmp_path: Path) -> Iterator[Opener]:
    """A phone whose browser prefers a language."""
    opened: list[AbstractContextManager[BrowserContext]] = []

    def open_one(locale: str) -> Page:
        context = browser(playwright, tmp_path / "phone", PHONE, demo.url, locale=locale, offline_copy=False)
        opened.append(context)
        return first_page(context.__enter__())

    yield open_one
    for context in reversed(opened):
        context.__exit__(None, None, None)


def signs_in(page: Page, path: str, name: str) -> None:
    """As one of the demo's people, whatever the language."""
    page.goto(path)
    page.locator("input[autocomplete=username]").fill(name)
    page.locator("input[type=password]").fill(DEMO_SECRET)
    page.locator("button[type=submit]").click()
    expect(page.locator("form")).to_have_count(0)
    expect(page.locator("h1").first).to_be_attached()


class Look:
    """Goes from screen to screen and remembers what does not fit."""

    def __init__(self, page: Page, language: str) -> None:
        self.page, self.language = page, language
        self.faults: list[str] = []
        self.pictures = os.environ.get("BAYCARD_PICTURES")

    def at(self, path: str, name: str, whole: str = "") -> None:
        """The screen at an address, once it shows `whole`."""
        self.page.goto(path)
        expect(self.page.locator("h1").first).to_be_attached()
        if whole:
            expect(self.page.get_by_text(whole).first).to_be_visible()
        self.now(name)

    def now(self, name: str) -> None:
        """The screen as it is."""
        if self.language == RIGHT_TO_LEFT:
            self.page.evaluate("() => { document.documentElement.dir = 'rtl'; }")
        self.faults += [f"{name}: {fault}" for fault in self.page.evaluate(CUT_OFF)]
        if self.pictures is not None:
            path = Path(self.pictures) / f"{self.language}-{name.replace('/', '_')}.png"
            self.page.screenshot(path=path, full_page=True)

    def bay(self, demo: DemoServer) -> None:
        """The technician's screens."""
        self.at("/", "cards", whole="TS 41 BKR")
        van = demo.cards["van"]
        for path in BAY:
            self.at(f"/bay/{van}{path}", f"van{path}", whole="TS 41 BKR" if path == "" else "")
        for check in CHECKS:
            self.at(f"/bay/{van}/walk/1/all/{check}", check)
            self.page.locator(".foot button").first.click()
            self.now(f"{check}, cautions read")
        self.at("/bay/phone", "this phone")

    def desk(self, demo: DemoServer) -> None:
        """The foreman's, on a phone."""
        self.at("/desk", "desk", whole="TS 41 BKR")
        for name, card in demo.cards.items():
            self.at(f"/desk/{card}", f"desk {name}")


@pytest.mark.parametrize(("locale", "signs"), [("de-DE", "Anmelden"), ("es-ES", "Entrar"), ("fr-FR", "Se connecter")])
def test_a_language_fits_on_a_small_phone(phone: Opener, demo: DemoServer, locale: str, signs: str) -> None:
    page = phone(locale)
    look = Look(page, locale[:2])
    look.at("/", "sign-in")
    expect(page.get_by_role("button", name=signs)).to_be_visible()
    assert page.evaluate("() => [document.documentElement.lang, document.documentElement.dir]") == [locale[:2], "ltr"]
    signs_in(page, "/", "Ruth Okello")
    look.bay(demo)
    look.desk(demo)
    assert not look.faults, "\n".join(look.faults)


def test_a_script_from_right_to_left_fits_too(phone: Opener, demo: DemoServer) -> None:
    page = phone("de-DE")
    served = []

    def turned(route: Route) -> None:
        served.append(route.request.url)
        body = f"export default {json.dumps(pseudo_catalogue(), ensure_ascii=False)};"
        route.fulfill(body=body, content_type="text/javascript; charset=utf-8")

    page.route(re.compile(r"/assets/de-[\w-]+\.js$"), turned)
    look = Look(page, RIGHT_TO_LEFT)
    look.at("/", "sign-in")
    expect(page.get_by_role("button", name=right_to_left("Sign in"))).to_be_visible()
    assert served
    signs_in(page, "/", "Ruth Okello")
    look.bay(demo)
    look.desk(demo)
    assert not look.faults, "\n".join(look.faults)


def test_the_language_is_chosen_on_the_phone_and_stays(phone: Opener) -> None:
    page = phone("en-GB")
    signs_in(page, "/", "Ines Varga")
    books: list[str] = []
    page.on("request", lambda request: books.append(request.url) if "/api/book" in request.url else None)
    page.goto("/bay/phone")
    with page.expect_response(re.compile(r"/api/book\?language=fr$")):
        page.get_by_role("radio", name="Français").click()
    expect(page.get_by_role("heading", name="Ce téléphone", exact=True)).to_be_visible()
    assert page.evaluate("() => document.documentElement.lang") == "fr"
    waits_until(page, f"{LANGUAGE_OF_KEPT_BOOK}.then((it) => it === 'fr')")
    books.clear()
    with page.expect_response(re.compile("/api/ping$")):
        page.reload()
    expect(page.get_by_role("radio", name="Français")).to_be_checked()
    expect(page.get_by_role("heading", name="Ce téléphone", exact=True)).to_be_visible()
    expect(page.get_by_text("tout est envoyé").first).to_be_visible()
    assert books == [], "the book is here in this language"


def test_findings_kept_on_an_english_phone_are_read_in_german_on_the_phone_and_at_the_desk(
    phone: Opener, demo: DemoServer
) -> None:
    page = phone("de-DE")
    signs_in(page, "/", "Ruth Okello")
    page.goto(f"/bay/{demo.cards['van']}/findings")
    expect(page.get_by_role("button", name="Flüssigkeit tropft vom Fahrzeug")).to_be_visible()
    page.goto(f"/desk/{demo.cards['van']}")
    finding = page.get_by_role("article", name="Flüssigkeit tropft vom Fahrzeug")
    expect(finding.get_by_text("Das muss repariert werden.")).to_be_visible()
    expect(page.get_by_text("Fluid drips from the vehicle")).to_have_count(0)
    expect(page.get_by_text("It has to be repaired.")).to_have_count(0)
