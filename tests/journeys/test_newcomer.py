"""Somebody who has never seen the app: each next step is in sight without scrolling, and few taps lead to a reading."""

from pathlib import Path

from playwright.sync_api import Locator, Page, Playwright, ViewportSize, expect

from tests.journeys.browsers import PHONE, browser, first_page
from tests.support.demo_server import DEMO_SECRET, demo_server

MOST_TAPS = 10
SMALLEST: ViewportSize = {"width": 320, "height": 640}
PAD_ON_PAGE = "() => document.querySelector('.pad').getBoundingClientRect().top + scrollY"
FOOT = """() => [...document.querySelectorAll('.way > button')].map((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return [x, y, width, height];
})"""
CUT = """() => [...document.querySelectorAll('.way button, .pad button')].filter((one) =>
    one.scrollWidth > one.clientWidth || one.offsetWidth < 44 || one.offsetHeight < 56).map((one) => one.textContent)"""


class Newcomer:
    """Taps only what is in sight, and counts."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0

    def taps_on(self, what: Locator) -> None:
        """One tap on something that need not be looked for."""
        expect(what).to_be_in_viewport(ratio=0.5)
        what.click()
        self.taps += 1

    def types_on_the_pad(self, number: str) -> None:
        """Digits and comma of our own pad."""
        for sign in number:
            name = "Comma" if sign == "," else sign
            self.taps_on(self.page.locator(".pad").get_by_role("button", name=name, exact=True))


def foot_places(page: Page) -> list[list[float]]:
    """Where the buttons of the way on are, but for the one that turns into the offer to undo; all at one moment."""
    places: list[list[float]] = page.evaluate(FOOT)
    return places


def cut_at_every_size_of_text(page: Page) -> dict[str, list[str]]:
    """The buttons of pad and foot whose words do not fit or that are too small for a thumb, by size of text."""
    found = {}
    for size in ("100", "125", "150", "175", "200"):
        page.evaluate("(size) => { document.documentElement.dataset.text = size; }", size)
        found[size] = page.evaluate(CUT)
    page.evaluate("() => { document.documentElement.dataset.text = '100'; }")
    return {size: cut for size, cut in found.items() if cut}


def test_ten_taps_lead_a_newcomer_from_the_sign_in_to_a_kept_play_of_a_bearing(
    playwright: Playwright, tmp_path: Path
) -> None:
    with demo_server(tmp_path) as demo, browser(playwright, tmp_path / "phone", PHONE, demo.url) as context:
        page = first_page(context)
        tom = Newcomer(page)
        page.goto("/")
        page.get_by_label("Name", exact=True).fill("Tom Abara")
        page.get_by_label("Secret").fill(DEMO_SECRET)
        tom.taps_on(page.get_by_role("button", name="Sign in"))
        tom.taps_on(page.get_by_role("link", name="TS 41 BKR").first)
        expect(page.get_by_role("button", name="Walk · As found")).to_be_in_viewport()
        # the list of this card's checklists is below its facts: the one thing to scroll for
        page.get_by_role("button", name="Wheel bearing play").first.click()
        tom.taps += 1
        tom.taps_on(page.get_by_role("button", name="I have read this"))
        expect(page.get_by_role("heading", name="How far does the rim move on the dial?")).to_be_in_viewport()
        tom.taps_on(page.get_by_role("radio", name="Dial indicator 0.01 mm"))
        page.set_viewport_size(SMALLEST)
        expect(page.locator(".pad .keep")).to_be_in_viewport(ratio=1)
        pad = page.evaluate(PAD_ON_PAGE)
        tom.types_on_the_pad("0,06")
        assert page.evaluate(PAD_ON_PAGE) == pad, "the pad moved under the thumb that typed"
        assert cut_at_every_size_of_text(page) == {}
        places = foot_places(page)
        tom.taps_on(page.locator(".pad .keep"))
        expect(page.get_by_text("0.06 mm").first).to_be_visible()
        expect(page.get_by_role("button", name="Undo")).to_be_in_viewport()
        assert foot_places(page) == places, "the offer to undo moved another button under the thumb"
        expect(page.locator("[data-step='bearing-play/rim-movement/front-left/1']")).to_have_count(0)
        assert tom.taps <= MOST_TAPS
