"""The ways about the app as only a real browser has them: its own back button, and lists longer than the screen."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, ViewportSize, expect

from tests.journeys.browsers import PHONE, browser, first_page
from tests.support.demo_server import DEMO_SECRET, demo_server

pytestmark = pytest.mark.xdist_group("journeys")

SMALLEST: ViewportSize = {"width": 320, "height": 640}
ON_ITS_SIDE: ViewportSize = {"width": 740, "height": 360}
CHECK = re.compile(r"/walk/1/all/")
MANNERS: dict[str, tuple[str, ViewportSize | None]] = {
    "upright": ("", None),
    "narrow, with text at 200 %": ("root.dataset.text = '200'", SMALLEST),
    "from right to left": ("root.dir = 'rtl'", None),
    "for the left hand": ("root.dataset.hand = 'left'", None),
    "on its side": ("", ON_ITS_SIDE),
}


@pytest.fixture
def page(playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    """A phone at the card of the demo's van, come from the list of cards."""
    with demo_server(tmp_path) as demo, browser(playwright, tmp_path / "phone", PHONE, demo.url) as context:
        page = first_page(context)
        page.goto("/")
        page.get_by_label("Name", exact=True).fill("Tom Abara")
        page.get_by_label("Secret").fill(DEMO_SECRET)
        page.get_by_role("button", name="Sign in").click()
        page.get_by_role("link", name="TS 41 BKR").first.click()
        expect(page.locator(".card-screen")).to_be_visible()
        yield page


def walks_on(page: Page) -> None:
    """From the card to a check in the middle of the walk."""
    page.get_by_role("button", name="Walk · As found").click()
    reads_cautions(page)
    page.locator(".strip .stop").nth(3).click()
    reads_cautions(page)


def reads_cautions(page: Page) -> None:
    read, step = page.get_by_role("button", name="I have read this"), page.locator("[data-step]")
    expect(read.or_(step).first).to_be_visible()
    if read.is_visible():
        read.click()
    expect(step).to_be_visible()


def is_at_cards(page: Page) -> None:
    expect(page.get_by_role("heading", name="Cards", exact=True)).to_be_visible()


def test_the_phones_back_goes_on_where_the_apps_back_led(page: Page) -> None:
    card = page.url
    walks_on(page)
    page.get_by_role("button", name=re.compile("All checks")).click()
    page.locator(".step-row").last.click()
    reads_cautions(page)
    expect(page).to_have_url(CHECK)
    page.get_by_role("button", name="Back", exact=True).click()
    expect(page).to_have_url(card)
    page.go_back()
    is_at_cards(page)


def test_back_leads_to_the_same_screens_after_a_reload(page: Page) -> None:
    card = page.url
    page.get_by_role("button", name="Record work").click()
    expect(page).to_have_url(re.compile("/work-done/"))
    page.reload()
    page.get_by_role("button", name="Back", exact=True).click()
    expect(page).to_have_url(card)
    expect(page.get_by_role("button", name="Record work")).to_be_in_viewport()
    page.go_back()
    is_at_cards(page)


@pytest.mark.parametrize(("script", "size"), MANNERS.values(), ids=MANNERS.keys())
def test_the_list_of_checks_opens_at_the_present_one_with_its_search_in_sight(
    page: Page, script: str, size: ViewportSize | None
) -> None:
    page.evaluate(f"() => {{ const root = document.documentElement; {script}; }}")
    walks_on(page)
    if size:
        page.set_viewport_size(size)
    step = page.locator("[data-step]").get_attribute("data-step")
    page.get_by_role("button", name=re.compile("All checks")).click()
    present, search = page.locator('.step-row[aria-current="step"]'), page.get_by_label("Search in all checks")
    expect(present).to_be_in_viewport(ratio=0.9)
    expect(search).to_be_in_viewport(ratio=1)
    page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    expect(search).to_be_in_viewport(ratio=1)
    search.fill("wheel")
    expect(page.locator(".step-row").first).to_be_in_viewport()
    search.fill("")
    expect(present).to_be_in_viewport(ratio=0.9)
    present.click()
    expect(page.locator(f'[data-step="{step}"]')).to_be_visible()
