"""Work that cannot be sent is carried to the desk by hand; when the phone then meets the server, nothing doubles."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys.browsers import DESK, PHONE, browser, first_page
from tests.journeys.foreman import Foreman
from tests.journeys.technician import Technician
from tests.journeys.test_photos import pick
from tests.support.photos import small_clean_jpeg
from tests.support.server import RealServer, secret_of

pytestmark = pytest.mark.xdist_group("phone faults")


def test_what_a_phone_cannot_send_reaches_the_desk_as_a_file_and_is_there_once(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    with (
        browser(playwright, tmp_path / "phone", PHONE, server.url) as bay,
        browser(playwright, tmp_path / "desk", DESK, server.url) as office,
    ):
        page = first_page(bay)
        ines = Technician(page, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        bay.set_offline(True)
        ines.opens_a_new_card({"Plate": "RES 112", "Make": "Corvane"}, ["A hum from the rear."])
        page.get_by_role("button", name="To the card").click()
        pick(page, small_clean_jpeg())
        expect(page.get_by_role("button", name="Take back")).to_have_count(1)
        page.goto("/bay/phone")
        first = _saves_what_waits(page, tmp_path / "first.zip")
        page.get_by_role("button", name="Sign out").click()
        second = _saves_what_waits(page, tmp_path / "second.zip")

        ruth = Foreman(first_page(office))
        ruth.signs_in("Ruth Okello")
        ruth.page.get_by_text("Take in a phone's file").click()
        _takes_in(ruth.page, first, "Photos and sounds: 1 new, 0 here already.")
        _takes_in(ruth.page, second, "0 new, 5 here already. Photos and sounds: 0 new, 1 here already.")
        ruth.page.get_by_role("list").get_by_role("link", name="Corvane").last.click()
        expect(ruth.page.get_by_text("A hum from the rear.").first).to_be_visible()
        assert ruth.looks_at_a_photo_full_size()["width"] == 1600
        before = server.phone("Tom Abara").pulled_ids()

        bay.set_offline(False)
        page.get_by_label("Name", exact=True).fill("Ines Varga")
        page.get_by_label("Secret").fill(secret_of("Ines Varga"))
        page.get_by_role("button", name="Sign in").click()
        expect(page.get_by_text("all sent").first).to_be_visible(timeout=60_000)
    assert server.phone("Tom Abara").pulled_ids() == before


def _saves_what_waits(page: Page, path: Path) -> Path:
    with page.expect_download() as download:
        page.get_by_role("button", name="Save what waits to a file").click()
    assert download.value.suggested_filename.startswith("baycard-")
    download.value.save_as(path)
    expect(page.get_by_text("Nothing was removed from the app")).to_be_visible()
    return path


def _takes_in(page: Page, file: Path, outcome: str) -> None:
    page.get_by_label("Choose the file").set_input_files(file)
    expect(page.get_by_text(outcome)).to_be_visible(timeout=60_000)
