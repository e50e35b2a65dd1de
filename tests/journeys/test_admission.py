"""Who may come in, from the desk's buttons to the phone in somebody's hand; what the phone had not sent comes after."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys.browsers import DESK, PHONE, browser, first_page
from tests.journeys.foreman import Foreman
from tests.journeys.technician import Technician
from tests.support.server import RealServer, secret_of

pytestmark = pytest.mark.xdist_group("phone faults")

# The phone asks again by itself within a minute; a loaded machine may take as long to answer.
ASKS_AGAIN_MS = 120_000
PLATE = "ADM 501"
READING = "Clear and of one colour"


@pytest.fixture
def in_the_bay(playwright: Playwright, server: RealServer, tmp_path: Path) -> Iterator[BrowserContext]:
    """A phone."""
    with browser(playwright, tmp_path / "phone", PHONE, server.url) as context:
        yield context


@pytest.fixture
def office(playwright: Playwright, server: RealServer, tmp_path: Path) -> Iterator[BrowserContext]:
    """The desk's machine."""
    with browser(playwright, tmp_path / "desk", DESK, server.url) as context:
        yield context


def test_a_phone_that_was_shut_out_says_so_and_its_unsent_reading_arrives_after_it_is_let_in(
    in_the_bay: BrowserContext, office: BrowserContext, book: Book, tmp_path: Path
) -> None:
    phone, desk = _phone_with_an_unsent_reading(in_the_bay, book, tmp_path), first_page(office)
    Foreman(desk).signs_in("Ruth Okello")
    desk.get_by_text("People and phones").click()
    row = desk.get_by_role("listitem").filter(has_text="Last signed in: Ines Varga")
    name = row.locator("strong").inner_text()
    row.get_by_role("button", name="Shut out").click()
    let_in = desk.get_by_role("button", name=f"Let in again: {name}")
    expect(let_in).to_be_visible()

    in_the_bay.set_offline(False)
    phone.get_by_role("button", name="Try now").click()
    expect(phone.get_by_text("This device was shut out.")).to_be_visible(timeout=ASKS_AGAIN_MS)
    expect(phone.get_by_role("heading", name="to send")).to_be_visible()
    phone.goto("/")
    expect(phone.get_by_role("status").get_by_text("This device was shut out.")).to_be_visible(timeout=ASKS_AGAIN_MS)
    phone.get_by_role("button", name="This phone").click()
    _sees_no_reading(office)

    let_in.click()
    expect(let_in).to_have_count(0)
    _signs_in_again(phone, secret_of("Ines Varga"))
    _sees_the_reading(desk)


def test_after_a_new_secret_from_the_owner_the_phone_asks_for_it_and_then_sends_what_waits(
    in_the_bay: BrowserContext, office: BrowserContext, book: Book, tmp_path: Path
) -> None:
    phone, desk = _phone_with_an_unsent_reading(in_the_bay, book, tmp_path), first_page(office)
    Foreman(desk).signs_in("Olga Tern")
    desk.get_by_text("People and phones").click()
    desk.get_by_role("button", name="New secret: Ines Varga").click()
    desk.get_by_label("New secret for Ines Varga").fill("goose-lamp-41")
    desk.get_by_role("button", name="Give this secret").click()
    expect(desk.get_by_text("Ines Varga has a new secret.")).to_be_visible()

    in_the_bay.set_offline(False)
    _signs_in_again(phone, "goose-lamp-41")
    _sees_the_reading(desk)


def _phone_with_an_unsent_reading(bay: BrowserContext, book: Book, folder: Path) -> Page:
    """Ines' phone on its own page, without network, with a reading made since."""
    page = first_page(bay)
    ines = Technician(page, book, {}, folder)
    ines.signs_in("Ines Varga")
    ines.is_ready_for_no_network()
    card = ines.opens_a_new_card({"Plate": PLATE}, [])
    ines.chooses("cooling")
    expect(page.get_by_text("all sent").first).to_be_visible(timeout=ASKS_AGAIN_MS)
    bay.set_offline(True)
    page.goto(f"/bay/{card}/walk/1/cooling")
    ines.reads_cautions()
    answer = page.get_by_role("button", name=READING, exact=True)
    expect(answer).to_have_attribute("aria-disabled", "false")
    answer.click()
    expect(page.get_by_text("1 to send").first).to_be_visible()
    page.goto("/bay/phone")
    expect(page.get_by_role("heading", name="1 to send")).to_be_visible()
    return page


def _signs_in_again(phone: Page, secret: str) -> None:
    """The old sign-in holds no more: the phone says so, and after a new one everything goes."""
    phone.get_by_role("button", name="Try now").click()
    expect(phone.get_by_text("The server wants you to sign in again.")).to_be_visible(timeout=ASKS_AGAIN_MS)
    phone.get_by_role("button", name="Sign out").click()
    phone.get_by_label("Name", exact=True).fill("Ines Varga")
    phone.get_by_label("Secret").fill(secret)
    phone.get_by_role("button", name="Sign in").click()
    expect(phone.get_by_text("all sent").first).to_be_visible(timeout=ASKS_AGAIN_MS)


def _sees_no_reading(office: BrowserContext) -> None:
    page = office.new_page()
    page.goto("/desk")
    page.get_by_role("link", name=PLATE).click()
    expect(page.get_by_role("heading", name=PLATE)).to_be_visible()
    expect(page.get_by_text(READING)).to_have_count(0)
    page.close()


def _sees_the_reading(desk: Page) -> None:
    desk.goto("/desk")
    desk.get_by_role("link", name=PLATE).click()
    expect(desk.get_by_text(READING).first).to_be_attached(timeout=ASKS_AGAIN_MS)
