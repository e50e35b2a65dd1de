"""The desk with a server that lives, falls silent and comes back, and cards that are not complete."""

import time
from collections.abc import Iterator
from pathlib import Path
from typing import cast

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.journeys.browsers import DESK, browser, first_page
from tests.journeys.foreman import Foreman
from tests.support.builders import CardBuilder, Json
from tests.support.server import OverTheWire, RealServer

# The desk asks by itself once a minute at most: what shows sooner came without being asked for.
LIVE_MS = 20_000
SILENCE_MS = 40_000
ARRIVAL_S = 15.0
LONG_WORD = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft" * 2


@pytest.fixture
def desk(playwright: Playwright, server: RealServer, tmp_path: Path) -> Iterator[Page]:
    """A desk screen with the foreman signed in."""
    with browser(playwright, tmp_path / "desk", DESK, server.url) as context:
        page = first_page(context)
        Foreman(page).signs_in("Ruth Okello")
        yield page


def handed_in(phone: OverTheWire, plate: str) -> CardBuilder:
    """A card that a phone sends whole."""
    card = phone.new_card()
    phone.push([card.fact(plate), card.handed_in()])
    return card


def arrived(phone: OverTheWire, kind: str) -> Json:
    """The first entry of a kind that the server has, asked for until it is there."""
    deadline = time.monotonic() + ARRIVAL_S
    while time.monotonic() < deadline:
        for entry in phone.pull()["entries"]:
            if entry["kind"] == kind:
                return cast("Json", entry)
    raise AssertionError(f"no {kind} has arrived")


def test_a_card_that_arrives_shows_at_the_desk_unasked(desk: Page, server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    handed_in(ines, "TS 1 FIRST")
    expect(desk.get_by_role("link", name="TS 1 FIRST")).to_be_visible()
    handed_in(ines, "TS 2 SECOND")
    expect(desk.get_by_role("link", name="TS 2 SECOND")).to_be_visible(timeout=LIVE_MS)


def test_a_reading_that_arrives_shows_on_the_open_card_unasked(desk: Page, server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    card = handed_in(ines, "TS 1 FIRST")
    desk.get_by_role("link", name="TS 1 FIRST").click()
    expect(desk.get_by_role("heading", name="TS 1 FIRST")).to_be_visible()
    ines.push([card.fact("Corvane", "vehicle/make")])
    expect(desk.get_by_role("heading", name="TS 1 FIRST · Corvane")).to_be_visible(timeout=LIVE_MS)


def test_while_the_server_is_silent_the_desk_says_so_and_what_is_sent_back_waits(
    desk: Page, server: RealServer
) -> None:
    ines = server.phone("Ines Varga")
    card = handed_in(ines, "TS 1 FIRST")
    desk.get_by_role("link", name="TS 1 FIRST").click()
    expect(desk.get_by_text("Everything is sent")).to_be_visible()
    server.kill()
    Foreman(desk).sends_back("Which side?")
    expect(desk.get_by_role("alert")).to_contain_text("The server does not answer", timeout=SILENCE_MS)
    expect(desk.get_by_text("1 thing waits in this browser to be sent")).to_be_visible()
    server.start()
    desk.get_by_role("button", name="Try now").click()
    expect(desk.get_by_text("Everything is sent")).to_be_visible(timeout=SILENCE_MS)
    expect(desk.get_by_role("alert")).to_have_count(0)
    tom = server.phone("Tom Abara")
    kinds = [entry["kind"] for entry in tom.pull()["entries"] if entry["card"] == card.card]
    assert kinds == ["fact", "handed-in", "sent-back"]


def test_a_card_whose_photo_is_missing_is_signed_only_with_a_reason(desk: Page, server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    card = ines.new_card()
    ines.push([card.fact("TS 1 FIRST"), card.photo("ab" * 32), card.handed_in()])
    desk.get_by_role("link", name="TS 1 FIRST").click()
    expect(desk.get_by_role("link", name="1 photo or sound still on a phone")).to_be_visible()
    desk.get_by_role("button", name="Sign off").click()
    desk.get_by_role("button", name="Not judged").click()
    sign = desk.get_by_role("button", name="Sign", exact=True)
    expect(sign).to_be_disabled()
    desk.get_by_label("Why it is signed without them").fill("The phone fell into the pit.")
    sign.click()
    expect(desk.get_by_text("Signed without 1 photo or sound: The phone fell into the pit.")).to_be_visible()


def test_times_of_a_phone_whose_clock_ran_ahead_are_marked(desk: Page, server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    card = ines.new_card()
    ines.push([card.fact("TS 1 FIRST"), card.handed_in(made_at="2031-01-01T08:00:00.000Z")])
    desk.get_by_role("link", name="TS 1 FIRST").click()
    expect(desk.get_by_text("that clock was ahead").first).to_be_visible()


@pytest.mark.parametrize("width", [1280, 360])
def test_long_words_and_words_from_right_to_left_stay_inside_the_page(
    desk: Page, server: RealServer, width: int
) -> None:
    ines = server.phone("Ines Varga")
    card = ines.new_card()
    arabic = card.entry("complaint", "card/complaint/019ab300-0000-7000-8000-000000000001", {"words": "صوت من الخلف"})
    long = card.entry("complaint", "card/complaint/019ab300-0000-7000-8000-000000000002", {"words": LONG_WORD})
    ines.push([card.fact("TS 1 FIRST"), card.fact(LONG_WORD, "vehicle/model"), arabic, long, card.handed_in()])
    desk.set_viewport_size({"width": width, "height": 800})
    fits = "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
    link = desk.get_by_role("link", name="TS 1 FIRST")
    expect(link).to_be_visible()
    assert desk.evaluate(fits)
    link.click()
    shown = desk.get_by_text("صوت من الخلف")
    expect(shown).to_be_visible()
    assert desk.evaluate(fits)
    assert shown.evaluate("(words) => getComputedStyle(words).direction") == "rtl"


def test_a_card_is_sent_back_with_the_checks_it_is_about(desk: Page, server: RealServer) -> None:
    ines = server.phone("Ines Varga")
    card = ines.new_card()
    book = ines.get("/api/book").json
    chosen = next(one for one in book["checklists"] if one["id"] == "bearing-play")
    pin = {"version": chosen["version"], "sha256": chosen["sha256"]}
    skipped = "bearing-play/rim-movement/rear-left/1"
    ines.push(
        [
            card.fact("TS 1 FIRST"),
            card.entry("checklist-chosen", "card/checklist/bearing-play", pin),
            card.entry("not-checked", skipped, {"reason": "no-time", "words": "closing hour"}),
            card.handed_in(),
        ]
    )
    desk.get_by_role("link", name="TS 1 FIRST").click()
    desk.get_by_role("button", name="Send back").click()
    desk.get_by_label("What is missing or unclear").fill("Please measure this one.")
    desk.get_by_text("Not checked · 1").click()
    desk.get_by_role("checkbox").first.check()
    desk.get_by_role("button", name="Send back").click()
    expect(desk.get_by_text("1 check named")).to_be_visible()
    assert arrived(ines, "sent-back")["body"] == {"words": "Please measure this one.", "slots": [skipped]}
