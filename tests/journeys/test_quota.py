"""A phone that runs out of room among the photos: readings go in all the same, and no picture is lost."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import CDPSession, Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys.browsers import PHONE, browser, first_page
from tests.journeys.technician import Technician
from tests.support import photos
from tests.support.server import RealServer

pytestmark = pytest.mark.xdist_group("photos")

RESERVE = 512 * 1024
# Beside what is there and the room set aside for readings: a few photos as the phone makes them small.
ROOM_FOR_PHOTOS = 900_000
PHOTOS_AT_MOST = 12
FACTS = {"Make": "Corvane", "Model": "Tadorna 1.6 D", "Customer's name": "Wharf Bakery"}


def allow(session: CDPSession, url: str, quota: int) -> None:
    """What the browser lets this app keep. It is heeded from the first opening of the database on."""
    session.send("Storage.overrideQuotaForOrigin", {"origin": url, "quotaSize": quota})


def used(session: CDPSession, url: str) -> int:
    """What the browser counts as used by this app, in bytes."""
    return int(session.send("Storage.getUsageAndQuota", {"origin": url})["usage"])


def photos_until_full(page: Page) -> int:
    """Take photos until one finds no room; how many were kept before it."""
    not_kept = page.get_by_text("This photo or sound is not kept")
    kept = page.get_by_text("Photo kept")
    for number in range(PHOTOS_AT_MOST):
        page.get_by_role("button", name="Photo on arrival").click()
        file = {"name": "IMG.jpg", "mimeType": "image/jpeg", "buffer": photos.phone_jpeg(1 + number % 8)}
        page.get_by_role("dialog").get_by_label("From a file").set_input_files(file)  # type: ignore[arg-type]
        taken = page.locator(".thumb-button")
        expect(not_kept.or_(taken.nth(number)).first).to_be_visible(timeout=30_000)
        if not_kept.is_visible():
            return number
        expect(kept.first).to_be_visible()
    raise AssertionError(f"{PHOTOS_AT_MOST} photos found room")


def test_a_phone_without_room_for_photos_still_keeps_readings_and_the_photo_once_there_is_room(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    profile = tmp_path / "phone"
    with browser(playwright, profile, PHONE, server.url, offline_copy=False) as context:
        page = first_page(context)
        ines = Technician(page, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        page.goto("/bay/phone")
        page.get_by_role("radio", name="Only when I say so").click()
        page.goto("/")
        card = ines.opens_a_new_card({"Plate": "QUO 74"}, [])
        before = used(context.new_cdp_session(page), server.url)
    with browser(playwright, profile, PHONE, server.url, offline_copy=False) as context:
        page = first_page(context)
        session = context.new_cdp_session(page)
        allow(session, server.url, before + RESERVE + ROOM_FOR_PHOTOS)
        page.goto(f"/bay/{card}/book-in")
        kept = photos_until_full(page)
        assert kept >= 1
        for label, text in FACTS.items():
            page.get_by_label(label, exact=True).fill(text)
            page.get_by_label(label, exact=True).blur()
        expect(page.get_by_text("This phone has no room left")).to_have_count(0)
        expect(page.get_by_text("This photo or sound is not kept")).to_be_visible()
        allow(session, server.url, before + 100_000_000)
        page.get_by_role("button", name="Keep it").click()
        expect(page.get_by_text("This photo or sound is not kept")).to_have_count(0)
        expect(page.locator(".thumb-button")).to_have_count(kept + 1)
        page.get_by_role("status").filter(has_text=re.compile(r"\d photos wait")).click()
        page.get_by_role("button", name="Send them now").click()
        expect(page.get_by_role("status").filter(has_text="all sent")).to_be_visible(timeout=60_000)
    phone = server.phone("Ines Varga")
    entries = [entry for entry in phone.pull()["entries"] if entry["card"] == card]
    blobs = [entry["body"]["blob"] for entry in entries if entry["kind"] == "photo"]
    assert len(blobs) == kept + 1
    assert all(phone.get(f"/api/blobs/{blob}").status == 200 for blob in blobs)
    facts = {str(entry["body"]["value"]) for entry in entries if entry["kind"] == "fact"}
    assert set(FACTS.values()) <= facts
