"""Every screen of bay and desk by the rules of WCAG 2.2 AA, in light and dark, and by keyboard alone."""

import json
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys.browsers import DESK, PHONE, Screen, browser, first_page
from tests.support.demo_server import DEMO_SECRET, DemoServer, demo_server

AXE = Path(__file__).resolve().parents[2] / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
GRAVE = ("serious", "critical")
WALKED = ("bearing-play", "fluid-leaks", "intake-pressure", "brakes", "underbody")
NOBODYS_CARD = "019ab300-0000-7000-8000-000000000000"
KINDS = {"choice", "number", "spread", "run", "photo", "sound", "text", "worked-out"}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """The demo workshop with its three cards."""
    with demo_server(tmp_path_factory.mktemp("demo")) as running:
        yield running


@dataclass
class Looker:
    """Looks at one screen after another and remembers what is wrong."""

    page: Page

    def __post_init__(self) -> None:
        self.faults: list[str] = []
        self.seen = 0

    def signs_in(self, name: str, path: str) -> None:
        """As one of the demo's people."""
        self.page.goto(path)
        self.page.get_by_label("Name", exact=True).fill(name)
        self.page.get_by_label("Secret").fill(DEMO_SECRET)
        self.page.get_by_role("button", name="Sign in").click()
        expect(self.page.get_by_role("heading", name="Cards")).to_be_attached()

    def opens(self, path: str) -> None:
        """A screen by its address, at its usual height again."""
        size = self.page.viewport_size
        if size is not None:
            usual = PHONE.height if size["width"] <= PHONE.width else DESK.height
            self.page.set_viewport_size({"width": size["width"], "height": usual})
        self.page.goto(path)
        expect(self.page.locator("h1").first).to_be_attached()
        expect(self.page.get_by_text("Loading")).to_have_count(0)

    def opens_everything(self) -> None:
        """All that is one tap away, and what is one tap away in there."""
        closed = self.page.locator("main details:not([open]) > summary:visible")
        while closed.count():
            for summary in closed.all()[::-1]:
                summary.evaluate("(summary) => summary.click()")

    def looks(self, name: str) -> None:
        """The screen as it is now, in light with every rule, in dark for its contrast."""
        self.seen += 1
        self._stretches()
        self.faults += [f"{name}: {fault}" for fault in self._run({"type": "tag", "values": RULES})]
        self.page.emulate_media(color_scheme="dark")
        contrast = {"type": "rule", "values": ["color-contrast"]}
        self.faults += [f"{name}, dark: {fault}" for fault in self._run(contrast)]
        self.page.emulate_media(color_scheme="light")

    def _stretches(self) -> None:
        """As tall as the page: what lies half under the fixed foot is whole after a scroll, and counts as whole."""
        size = self.page.viewport_size
        assert size is not None
        height: int = self.page.evaluate("() => document.documentElement.scrollHeight")
        self.page.set_viewport_size({"width": size["width"], "height": max(size["height"], height)})

    def _run(self, only: dict[str, Any]) -> list[str]:
        # The page's policy forbids inline scripts and eval; the debugger's protocol may evaluate a whole script.
        wire = self.page.context.new_cdp_session(self.page)
        wire.send("Runtime.evaluate", {"expression": AXE.read_text(encoding="utf-8")})
        asked = f"axe.run(document, {{runOnly: {json.dumps(only)}, resultTypes: ['violations']}})"
        told = (
            f"{asked}.then((found) => JSON.stringify(found.violations.map(({{id, impact, nodes}}) => "
            "({id, impact, nodes: nodes.map((node) => node.html.slice(0, 160))}))))"
        )
        answer = wire.send("Runtime.evaluate", {"expression": told, "awaitPromise": True, "returnByValue": True})
        wire.detach()
        violations = json.loads(answer["result"]["value"])
        return [f"{one['id']} ({one['impact']}) {one['nodes'][:3]}" for one in violations if one["impact"] in GRAVE]


@pytest.fixture
def looker(playwright: Playwright, demo: DemoServer, tmp_path: Path) -> Iterator[Callable[[Screen], Looker]]:
    """A browser of the given size over the demo."""
    opened: list[AbstractContextManager[BrowserContext]] = []

    def open_one(screen: Screen) -> Looker:
        context = browser(playwright, tmp_path / f"profile-{len(opened)}", screen, demo.url)
        opened.append(context)
        return Looker(first_page(context.__enter__()))

    yield open_one
    for context in reversed(opened):
        context.__exit__(None, None, None)


def spots(book: Book) -> dict[str, str]:
    """For every kind of answer, the path of a step that asks for it."""
    found: dict[str, str] = {}
    for checklist in book.checklists:
        if checklist.id in WALKED:
            for check in checklist.checks:
                found.setdefault(check.answer.kind, f"{checklist.id}/{check.id}/{check.at[0]}")
    return found


def card_with(demo: DemoServer, spot: str) -> str:
    """The demo card on which the checklist of a spot is chosen."""
    on_van = spot.split("/", maxsplit=1)[0] in ("bearing-play", "fluid-leaks", "intake-pressure")
    return demo.cards["van" if on_van else "estate"]


def test_every_screen_of_the_bay(looker: Callable[[Screen], Looker], demo: DemoServer, book: Book) -> None:
    ines = looker(PHONE)
    ines.page.goto("/")
    expect(ines.page.get_by_role("button", name="Sign in")).to_be_visible()
    ines.looks("sign-in")
    ines.signs_in("Ines Varga", "/")
    expect(
        ines.page.get_by_role("link", name="TS 41 BKR").or_(ines.page.get_by_text("TS 41 BKR")).first
    ).to_be_visible()
    ines.looks("cards")
    van, pickup = demo.cards["van"], demo.cards["pickup"]
    for path in ("", "/book-in", "/findings", "/recheck", "/hand-in", "/steps/1/all", "/work-done/new", "/walk/1/all"):
        ines.opens(f"/bay/{van}{path}")
        ines.looks(f"van{path}")
    ines.opens(f"/bay/{pickup}/recheck")
    ines.looks("recheck with rounds")
    slot = "finding/at/bearing-play/rim-movement/rear-left"
    for path in (f"/bay/{van}/finding/{slot}", "/bay/phone", "/bay/shared", f"/bay/{NOBODYS_CARD}/book-in"):
        ines.opens(path)
        ines.looks(path)
    ines.opens(f"/bay/{van}")
    ines.page.get_by_role("button", name="It leaves oil spots").click()
    expect(ines.page.get_by_role("heading", name="It leaves oil spots")).to_be_visible()
    ines.looks("a complaint")
    kinds = spots(book)
    assert set(kinds) >= KINDS
    for kind, spot in kinds.items():
        ines.opens(f"/bay/{card_with(demo, spot)}/walk/1/all/{spot}")
        ines.looks(f"a check answered by {kind}")
        read = ines.page.get_by_role("button", name="I have read this")
        if read.count():
            read.first.click()
            ines.looks(f"a check answered by {kind}, cautions read")
    ines.page.get_by_role("button", name="Could not check").first.click()
    ines.looks("why it could not be checked")
    assert ines.faults == []
    assert ines.seen > 20


def test_every_screen_of_the_desk(looker: Callable[[Screen], Looker], demo: DemoServer) -> None:
    ruth = looker(DESK)
    ruth.signs_in("Ruth Okello", "/desk")
    expect(ruth.page.get_by_role("link", name="TS 41 BKR")).to_be_visible()
    ruth.looks("list")
    for name, card in demo.cards.items():
        ruth.opens(f"/desk/{card}")
        expect(ruth.page.get_by_role("heading", name="Every reading")).to_be_visible()
        ruth.looks(name)
        ruth.opens_everything()
        ruth.looks(f"{name}, everything opened")
    ruth.opens(f"/desk/{demo.cards['van']}")
    ruth.page.get_by_role("button", name="Open photo").first.click()
    expect(ruth.page.get_by_role("dialog")).to_be_visible()
    ruth.looks("a photo full size")
    ruth.page.keyboard.press("Escape")
    ruth.page.get_by_role("button", name="Not a finding").first.click()
    ruth.looks("why it is not a finding")
    ruth.page.get_by_role("button", name="Send back").click()
    ruth.looks("sending back")
    ruth.page.get_by_role("button", name="Cancel").click()
    ruth.page.get_by_role("button", name="Sign off").click()
    ruth.page.get_by_role("button", name="Yes, with restrictions").click()
    ruth.looks("signing off")
    ruth.page.set_viewport_size({"width": 360, "height": 740})
    ruth.looks("signing off on a small screen")
    ruth.opens("/desk")
    ruth.looks("list on a small screen")
    ruth.opens(f"/desk/{NOBODYS_CARD}")
    ruth.looks("a card that is not here")
    assert ruth.faults == []


def test_the_owner_sees_who_may_come_in_and_shuts_a_lost_phone_out(
    looker: Callable[[Screen], Looker], demo: DemoServer
) -> None:
    ola = looker(DESK)
    page = ola.page
    ola.signs_in("Ola Tern", "/desk")
    page.get_by_text("People and phones").click()
    page.get_by_role("button", name="Shut out: Tom's phone").click()
    let_in = page.get_by_role("button", name="Let in again: Tom's phone")
    expect(let_in).to_be_visible()
    expect(page.get_by_role("heading", name="Enter a person")).to_be_visible()
    page.get_by_role("button", name="New secret: Tom Abara").click()
    expect(page.get_by_label("New secret for Tom Abara")).to_be_focused()
    ola.looks("people and phones")
    page.set_viewport_size({"width": 360, "height": 740})
    ola.looks("people and phones on a small screen")
    presses(let_in)
    expect(page.get_by_role("button", name="Shut out: Tom's phone")).to_be_visible()
    assert ola.faults == []


def focused(page: Page) -> str:
    """What a screen reader would say of the focused thing: its name."""
    name: str = page.evaluate(
        "() => { const here = document.activeElement; const label = here.id && "
        "document.querySelector(`label[for='${here.id}']`);"
        "return here.getAttribute('aria-label') || (label || here).textContent.trim(); }"
    )
    return name


def presses(button: Locator, key: str = "Enter") -> None:
    """A key on a button, once it can be pressed: a disabled one would swallow it."""
    expect(button).to_be_enabled()
    button.press(key)


def test_a_card_is_signed_off_with_the_keyboard_alone(looker: Callable[[Screen], Looker], demo: DemoServer) -> None:
    ruth = looker(DESK)
    page = ruth.page
    ruth.signs_in("Ruth Okello", "/desk")
    ruth.opens(f"/desk/{demo.cards['van']}")
    presses(page.get_by_role("button", name="Sign off"))
    expect(page.get_by_role("heading", name="Sign off revision 1")).to_be_focused()
    page.get_by_role("button", name="Yes, as far as it was checked").focus()
    passed = [focused(page)]
    for _ in range(6):
        page.keyboard.press("Tab")
        passed.append(focused(page))
    assert passed == [
        "Yes, as far as it was checked",
        "Yes, with restrictions",
        "No",
        "Not judged",
        "When to look again",
        "Words to the customer",
        "Cancel",
    ]
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Sign off")).to_be_focused()
    page.keyboard.press("Enter")
    presses(page.get_by_role("button", name="Not judged"), "Space")
    expect(page.get_by_role("button", name="Sign", exact=True)).to_be_enabled()
    page.get_by_label("Words to the customer").focus()
    page.keyboard.press("Tab")
    assert focused(page) == "Sign"


def test_a_photo_keeps_the_focus_while_it_is_open_and_gives_it_back(
    looker: Callable[[Screen], Looker], demo: DemoServer
) -> None:
    ruth = looker(DESK)
    page = ruth.page
    ruth.signs_in("Ruth Okello", "/desk")
    ruth.opens(f"/desk/{demo.cards['van']}")
    opener = page.get_by_role("button", name="Open photo").first
    presses(opener)
    expect(page.get_by_role("dialog")).to_be_visible()
    for _ in range(8):
        page.keyboard.press("Tab")
        behind = "() => document.activeElement !== document.body && !document.activeElement.closest('dialog')"
        assert not page.evaluate(behind)
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    expect(opener).to_be_focused()


NOT_ALLOWED = """() => {
  const refuse = () => Promise.reject(new DOMException("", "NotAllowedError"));
  Object.defineProperty(navigator.mediaDevices, "getUserMedia", { value: refuse });
}"""


def stays_inside(page: Page) -> None:
    """However often one goes on with Tab, nothing behind gets the focus."""
    for _ in range(9):
        page.keyboard.press("Tab")
        behind = "() => document.activeElement !== document.body && !document.activeElement.closest('dialog')"
        assert not page.evaluate(behind)


def test_what_covers_the_screen_keeps_the_focus_and_gives_it_back(
    looker: Callable[[Screen], Looker], demo: DemoServer
) -> None:
    ines = looker(PHONE)
    page = ines.page
    ines.signs_in("Ines Varga", "/")
    photo = page.get_by_role("button", name="Photo", exact=True).first
    look = page.get_by_role("button", name="look closer").first
    scan = page.get_by_role("button", name="Scan the VIN")
    for path, opener, name in (
        (f"/bay/{demo.cards['van']}", photo, "Photo"),
        (f"/bay/{demo.cards['van']}", look, "Photo in full"),
        (f"/bay/{demo.cards['van']}/book-in", scan, "Scan the VIN"),
    ):
        ines.opens(path)
        presses(opener)
        expect(page.get_by_role("dialog", name=name)).to_be_visible()
        ines.looks(name)
        stays_inside(page)
        page.keyboard.press("Escape")
        expect(page.get_by_role("dialog")).to_have_count(0)
        expect(opener).to_be_focused()
    ines.opens(f"/bay/{demo.cards['van']}")
    presses(look)
    presses(page.get_by_role("button", name="Draw"))
    expect(page.get_by_role("dialog", name="Draw")).to_be_visible()
    ines.looks("drawing on a photo")
    stays_inside(page)
    page.keyboard.press("Escape")
    expect(look).to_be_focused()
    page.evaluate(NOT_ALLOWED)
    presses(photo)
    expect(page.get_by_role("alert")).to_contain_text("may not use the camera")
    ines.looks("a camera that may not be used")
    assert ines.faults == []
