"""A real phone in trouble: killed while recording, a link that comes and goes, two tabs, an update with unsent work."""

import gzip
import json
import os
import re
import signal
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, Request, expect
from playwright.sync_api import Error as PlaywrightError

from baycard.checklists.types import Book
from tests.journeys.browsers import PHONE, browser, first_page
from tests.journeys.front_door import FrontDoor, front_door
from tests.journeys.technician import Technician
from tests.journeys.waits import waits_until
from tests.support.server import RealServer

pytestmark = pytest.mark.xdist_group("phone faults")

# A batch of more than a kilobyte is sent packed.
GZIP = b"\x1f\x8b"

KILLS = 5
FLAPS = 20
RUN = "intake-pressure/pressure-run/intake"
FIELDS = ("Plate", "Make", "Model", "Customer's name")
COUNT = re.compile(r"(\d+) to send")
STORE = """(read) => new Promise((resolve, reject) => {
  const opening = indexedDB.open("baycard");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const tx = opening.result.transaction(["made", "outbox", "blob_lines"]);
    const made = tx.objectStore("made").getAllKeys();
    const open = tx.objectStore("outbox").count();
    tx.oncomplete = () => { opening.result.close(); resolve({ ids: made.result, open: open.result }); };
  };
})"""

DRAFT = """(slot) => new Promise((resolve) => {
  const opening = indexedDB.open("baycard");
  opening.onsuccess = () => {
    const found = opening.result.transaction("meta").objectStore("meta").get("draft:" + slot);
    found.onsuccess = () => { opening.result.close(); resolve((found.result?.watch?.laps?.length ?? 0) > 0); };
  };
})"""


def ids_on_phone(page: Page) -> list[str]:
    """The ids of everything made here, as the phone's database holds them."""
    ids: list[str] = page.evaluate(STORE)["ids"]
    return ids


def waits_until_sent(page: Page, made: int) -> None:
    """Until so many entries are on the phone and none of them waits; then the screen says so, too."""
    waits_until(page, f"({STORE})().then((it) => it.ids.length >= {made} && it.open === 0)", 90)
    expect(page.get_by_text("all sent")).to_be_visible()


def shown_as_kept(page: Page) -> int:
    """The number of things the screen says are kept and not yet sent."""
    found = COUNT.search(page.get_by_role("status").first.inner_text())
    return int(found.group(1)) if found else 0


def types(page: Page, label: str, words: str) -> None:
    """Fill a field and leave it, which keeps it."""
    box = page.get_by_label(label, exact=True)
    box.fill(words)
    box.blur()


def kill_browser(profile: Path) -> None:
    """SIGKILL for every process of the browser over this profile, as when the phone's battery dies."""
    mine = f"--user-data-dir={profile}".encode()
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            with suppress(OSError):
                if mine in (entry / "cmdline").read_bytes().split(b"\0"):
                    os.kill(int(entry.name), signal.SIGKILL)


@contextmanager
def doomed_browser(
    playwright: Playwright, profile: Path, url: str, time_zone: str | None = None
) -> Iterator[BrowserContext]:
    """A browser that may be dead at the end."""
    with suppress(PlaywrightError), browser(playwright, profile, PHONE, url, time_zone=time_zone) as context:
        yield context


def test_what_was_shown_as_kept_is_there_after_the_browser_was_killed(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    profile = tmp_path / "phone"
    with browser(playwright, profile, PHONE, server.url) as context:
        ines = Technician(first_page(context), book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        context.set_offline(True)
        card = ines.opens_a_new_card({"Plate": "TS 0"}, [])
        expect(ines.page.get_by_text(COUNT).first).to_be_visible()
        shown = shown_as_kept(ines.page)
    ids: set[str] = set()
    for kill in range(KILLS):
        with doomed_browser(playwright, profile, server.url) as context:
            context.set_offline(True)
            page = first_page(context)
            page.goto(f"/bay/{card}/book-in")
            expect(page.get_by_text(COUNT).first).to_be_visible()
            assert shown_as_kept(page) >= shown
            before = set(ids_on_phone(page))
            assert ids <= before
            ids = before
            for number, label in enumerate(FIELDS):
                types(page, label, f"{label} {kill}.{number}")
                expect(page.get_by_text(f"{len(ids) + number + 1} to send")).to_be_visible()
            shown = shown_as_kept(page)
            types(page, "Make", "typed but perhaps not yet kept")
            kill_browser(profile)
    with browser(playwright, profile, PHONE, server.url) as context:
        page = first_page(context)
        page.goto(f"/bay/{card}/book-in")
        waits_until_sent(page, shown)
        on_phone = ids_on_phone(page)
        assert len(on_phone) >= shown
    assert sorted(server.phone("Tom Abara").pulled_ids()) == sorted(on_phone)


def test_a_run_goes_on_through_a_flat_battery_and_another_time_zone(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    profile = tmp_path / "phone"
    with browser(playwright, profile, PHONE, server.url) as context:
        ines = Technician(first_page(context), book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
    with doomed_browser(playwright, profile, server.url, "Pacific/Honolulu") as context:
        context.set_offline(True)
        ines = Technician(first_page(context), book, {}, tmp_path)
        ines.page.goto("/")
        card = ines.opens_a_new_card({"Plate": "TS 9"}, [])
        ines.chooses("intake-pressure")
        run = f"/bay/{card}/walk/1/intake-pressure/{RUN}"
        ines.page.goto(run)
        ines.reads_cautions()
        ines.starts_a_run("6.0")
        begun = time.monotonic()
        expect(ines.page.get_by_text("0 s: 6")).to_be_visible()
        waits_until(ines.page, f"({DRAFT})('{card}/{RUN}/1')")
        kill_browser(profile)
    with browser(playwright, profile, PHONE, server.url, time_zone="Pacific/Auckland") as context:
        ines = Technician(first_page(context), book, {}, tmp_path)
        ines.page.goto(run)
        expect(ines.page.get_by_text("0 s: 6")).to_be_visible()
        minutes, seconds = ines.page.get_by_role("timer").inner_text().split(":")
        ran = 60 * int(minutes) + float(seconds)
        assert abs(ran - (time.monotonic() - begun)) < 60, "one stopwatch, whatever the clock on the wall says"
        ines.enters("5.5")
        ines.page.get_by_role("button", name="Keep this run").click()
        waits_until_sent(ines.page, 3)
    entries = server.phone("Tom Abara").pull()["entries"]
    (kept,) = [entry for entry in entries if entry["slot"] == f"{RUN}/1"]
    (_, first), (at, second) = kept["body"]["samples"]
    assert (first, second) == (6.0, 5.5)
    assert 0 < at < 3600
    made = [entry["made_at"] for entry in entries]
    assert made == sorted(made), "times are kept in one zone"


def test_a_link_that_comes_and_goes_every_second_loses_and_doubles_nothing(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone", PHONE, server.url) as context:
        ines = Technician(first_page(context), book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        card = ines.opens_a_new_card({}, [])
        ines.page.goto(f"/bay/{card}/book-in")
        for flap in range(FLAPS):
            context.set_offline(flap % 2 == 0)
            second = time.monotonic() + 1
            types(ines.page, FIELDS[flap % len(FIELDS)], f"FLAP {flap}")
            ines.page.wait_for_timeout(max(0.0, second - time.monotonic()) * 1000)
        context.set_offline(False)
        waits_until_sent(ines.page, FLAPS)
        on_phone = ids_on_phone(ines.page)
    tom = server.phone("Tom Abara")
    assert sorted(tom.pulled_ids()) == sorted(on_phone)
    typed = [entry["body"]["value"] for entry in tom.pull()["entries"] if entry["kind"] == "fact"]
    assert {f"FLAP {flap}" for flap in range(FLAPS)} <= set(typed)


def test_of_two_tabs_one_sends_what_both_record(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone", PHONE, server.url) as context:
        first = first_page(context)
        ines = Technician(first, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        card = ines.opens_a_new_card({}, [])
        second = context.new_page()
        pushes: list[tuple[Page, list[str]]] = []
        for page in (first, second):
            page.on("request", partial(_note, pushes, page))
            page.goto(f"/bay/{card}/book-in")
        for number in range(4):
            types(first, "Make", f"first {number}")
            types(second, "Model", f"second {number}")
        expect(second.get_by_label("Make", exact=True)).to_have_value("first 3")
        for page in (first, second):
            waits_until_sent(page, 8)
        ids = ids_on_phone(first)
        sent = [id_ for _, batch in pushes for id_ in batch]
        assert len(sent) == len(set(sent)), "no entry is sent by both"
        assert len({page for page, _ in pushes}) == 1, "one tab sends"
        next(page for page, _ in pushes).close()
        left = context.pages[0]
        types(left, "Plate", "TS 77")
        waits_until_sent(left, len(ids) + 1)
    assert set(ids) < set(server.phone("Tom Abara").pulled_ids()), "the other tab sends once the first is closed"


def test_a_new_version_waits_for_a_word_and_loses_no_unsent_work(
    playwright: Playwright, server: RealServer, book: Book, tmp_path: Path
) -> None:
    with front_door(server.port) as door, browser(playwright, tmp_path / "phone", PHONE, door.url) as context:
        page = first_page(context)
        ines = Technician(page, book, {}, tmp_path)
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        server.kill()
        card = ines.opens_a_new_card({"Plate": "TS 5"}, [])
        expect(page.get_by_text(COUNT).first).to_be_visible()
        before = ids_on_phone(page)
        _brings_a_new_version(page, door)
        types(page, "Make", "typed under the old version")
        page.goto("/bay/phone")
        page.get_by_role("button", name="Switch to the new version").click()
        expect(page.get_by_text("newest version")).to_be_visible()
        after = ids_on_phone(page)
        assert set(before) < set(after)
        server.start()
        page.goto(f"/bay/{card}/book-in")
        expect(page.get_by_label("Make", exact=True)).to_have_value("typed under the old version")
        waits_until_sent(page, len(after))
    assert sorted(server.phone("Tom Abara").pulled_ids()) == sorted(after)


def _brings_a_new_version(page: Page, door: FrontDoor) -> None:
    door.version += 1
    page.evaluate("navigator.serviceWorker.getRegistration().then((it) => it.update())")
    waits_until(page, "navigator.serviceWorker.getRegistration().then((it) => it.waiting !== null)")


def _note(pushes: list[tuple[Page, list[str]]], page: Page, request: Request) -> None:
    if request.url.endswith("/api/sync/push"):
        body = request.post_data_buffer or b""
        sent: Any = json.loads(gzip.decompress(body) if body.startswith(GZIP) else body)
        pushes.append((page, [entry["id"] for entry in sent["entries"]]))
