"""Photo files as real phones make them, picked on a phone: kept upright and without place, or refused in a sentence."""

from collections.abc import Callable, Iterator
from functools import partial
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys.browsers import PHONE, browser, first_page
from tests.journeys.technician import Technician
from tests.support import photos
from tests.support.server import RealServer

pytestmark = pytest.mark.xdist_group("photos")

TOLERANCE = 60
SOUND = "engine-bay/start-sound/cabin"
KEPT: dict[str, Callable[[], bytes]] = {
    **{f"orientation {turn}": partial(photos.phone_jpeg, turn) for turn in range(1, 9)},
    "progressive": lambda: photos.phone_jpeg(1, progressive=True),
    "40 MP": photos.forty_megapixels,
    "PNG named .jpg": photos.png_named_jpg,
}
REFUSED: dict[str, Callable[[], bytes]] = {
    "cut short": lambda: photos.cut_short(photos.phone_jpeg()),
    "HEIC": photos.heic_head,
    "text": lambda: b"this is no picture",
}


@pytest.fixture
def page_on_a_card(playwright: Playwright, server: RealServer, book: Book, tmp_path: Path) -> Iterator[Page]:
    """A phone with a new card open."""
    with browser(playwright, tmp_path / "phone", PHONE, server.url) as context:
        page = first_page(context)
        ines = Technician(page, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.opens_a_new_card({"Plate": "PHO 70"}, [])
        page.get_by_role("button", name="To the card").click()
        yield page


def pick(page: Page, data: bytes) -> None:
    """Hand a file to the card as its photo."""
    page.get_by_role("button", name="Photo", exact=True).first.click()
    file = {"name": "IMG_0001.jpg", "mimeType": "image/jpeg", "buffer": data}
    page.get_by_role("dialog", name="Photo").get_by_label("From a file").set_input_files(file)  # type: ignore[arg-type]


def test_photos_of_real_phones_arrive_upright_small_and_without_place(page_on_a_card: Page, server: RealServer) -> None:
    page = page_on_a_card
    for number, make in enumerate(KEPT.values(), start=1):
        pick(page, make())
        expect(page.get_by_role("button", name="Take back")).to_have_count(number, timeout=60_000)
    expect(page.get_by_text("all sent")).to_be_visible(timeout=60_000)
    phone = server.phone("Ines Varga")
    entries = [entry for entry in phone.pull()["entries"] if entry["kind"] == "photo"]
    assert len(entries) == len(KEPT)
    for name, entry in zip(KEPT, entries, strict=True):
        look_at(name, phone.get(f"/api/blobs/{entry['body']['blob']}").data)


@pytest.mark.parametrize("way", ["Keep the marked copy", "Back"])
def test_what_is_drawn_on_a_photo_is_kept_as_a_copy_and_the_original_stays(
    page_on_a_card: Page, server: RealServer, way: str
) -> None:
    page = page_on_a_card
    pick(page, photos.small_clean_jpeg())
    expect(page.locator(".thumb-button")).to_have_count(1, timeout=60_000)
    page.locator(".thumb-button").click()
    page.get_by_role("dialog", name="Photo in full").get_by_role("button", name="Draw").click()
    drawing = page.get_by_role("dialog", name="Draw")
    expect(drawing.get_by_role("button", name="Keep the marked copy")).to_be_disabled()
    draws_a_ring(page)
    drawing.get_by_role("button", name=way, exact=True).click()
    expect(drawing).to_have_count(0, timeout=60_000)
    expect(page.locator(".thumb-button")).to_have_count(2, timeout=60_000)
    expect(page.get_by_text("all sent")).to_be_visible(timeout=60_000)
    phone = server.phone("Ines Varga")
    original, copy = [entry["body"] for entry in phone.pull()["entries"] if entry["kind"] == "photo"]
    assert (original["caption"], copy["caption"]) == ("", "marked")
    before, after = (Image.open(BytesIO(phone.get(f"/api/blobs/{one['blob']}").data)) for one in (original, copy))
    assert after.size == before.size
    changed = ImageChops.difference(before.convert("L"), after.convert("L")).point(lambda by: 255 * (by > TOLERANCE))
    left, top, right, bottom = changed.getbbox() or (0, 0, 0, 0)
    width, height = after.size
    assert (left / width, right / width) == pytest.approx((0.25, 0.75), abs=0.05)
    assert (top / height, bottom / height) == pytest.approx((0.25, 0.75), abs=0.05)


def draws_a_ring(page: Page) -> None:
    """Over the middle half of the picture, corner to corner, once the picture is there to draw on."""
    board = page.get_by_role("img", name="The photo to draw on")
    expect(board).not_to_have_attribute("width", "4")
    box = board.bounding_box()
    assert box is not None
    x, y, width, height = box["x"], box["y"], box["width"], box["height"]
    page.mouse.move(x + width / 4, y + height / 4)
    page.mouse.down()
    page.mouse.move(x + width / 2, y + height / 2)
    page.mouse.move(x + width * 3 / 4, y + height * 3 / 4)
    page.mouse.up()


def test_a_blurred_photo_is_kept_and_asked_about_once_and_a_sharp_one_is_not(page_on_a_card: Page) -> None:
    page = page_on_a_card
    taken, question = page.locator(".thumb-button"), page.get_by_text("This picture looks blurred.")
    pick(page, photos.parts_jpeg())
    expect(taken).to_have_count(1, timeout=60_000)
    pick(page, photos.parts_jpeg(blur_px=30))
    expect(taken).to_have_count(2, timeout=60_000)
    expect(question).to_be_visible()
    page.get_by_role("button", name="Keep the picture").click()
    expect(question).to_have_count(0)
    expect(taken).to_have_count(2)


def test_a_phone_that_may_use_neither_camera_nor_microphone_says_so_and_takes_files(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone", PHONE, server.url, allows=False) as context:
        page = first_page(context)
        ines = Technician(page, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        card = ines.opens_a_new_card({"Plate": "PHO 71"}, [])
        ines.chooses("engine-bay")
        page.goto(f"/bay/{card}/walk/1/engine-bay/{SOUND}")
        ines.reads_cautions()
        page.get_by_role("button", name="Record", exact=True).click()
        expect(page.get_by_role("alert")).to_contain_text("may not use the camera or the microphone")
        tone = {"name": "spin.wav", "mimeType": "audio/wav", "buffer": photos.short_tone()}
        page.get_by_label("Sound from a file").set_input_files(tone)  # type: ignore[arg-type]
        expect(page.locator(f'[data-step="{SOUND}/1"]')).to_have_count(0)
        page.get_by_role("button", name="Photo", exact=True).first.click()
        expect(page.get_by_role("dialog", name="Photo").get_by_role("alert")).to_contain_text("may not use")
        page.keyboard.press("Escape")
        pick(page, photos.phone_jpeg())
        expect(page.get_by_role("button", name="Take back")).to_be_visible(timeout=30_000)
        expect(page.get_by_text("all sent")).to_be_visible(timeout=30_000)
    kinds = [entry["kind"] for entry in server.phone("Ines Varga").pull()["entries"]]
    assert kinds.count("photo") == kinds.count("sound") == 1


def look_at(name: str, data: bytes) -> None:
    """Upright by the colours in its corners, at most 1600 px, about 300 kB, no metadata."""
    image = Image.open(BytesIO(data))
    assert image.format == "JPEG", name
    assert not image.getexif(), name
    assert max(image.size) <= 1600, name
    assert image.width > image.height, name
    assert len(data) < 500_000, name
    spots = {"top left": (0.05, 0.05), "top right": (0.95, 0.05), "bottom left": (0.05, 0.95)}
    for corner, (across, down) in spots.items():
        seen = image.convert("RGB").getpixel((int(image.width * across), int(image.height * down)))
        assert isinstance(seen, tuple)
        wanted = photos.CORNERS[corner]
        assert all(abs(a - b) < TOLERANCE for a, b in zip(seen, wanted, strict=True)), f"{name}: {corner} is {seen}"


def test_files_that_are_no_photos_are_refused_in_a_sentence_and_nothing_is_kept(page_on_a_card: Page) -> None:
    page = page_on_a_card
    for make in REFUSED.values():
        pick(page, make())
        alert = page.get_by_role("alert")
        expect(alert).to_be_visible(timeout=30_000)
        assert len(alert.inner_text()) > 20
        page.reload()
        expect(page.get_by_role("button", name="Take back")).to_have_count(0)
