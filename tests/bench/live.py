"""How soon an entry that the server has kept is on an open desk, against the answer to its push and one bare pull."""

from __future__ import annotations

import time
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import Page, expect, sync_playwright

from tests.bench.tables import median, percentile, ratio, table
from tests.journeys.browsers import DESK, browser, first_page
from tests.journeys.foreman import Foreman
from tests.support.builders import Json
from tests.support.server import OverTheWire, furnish, running_server

COUNT = 40
SHOWN = "(name) => [...document.querySelectorAll('h1')].some((one) => one.textContent.includes(name))"


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    folder = work / "data"
    folder.mkdir()
    furnish(folder)
    with ExitStack() as stack:
        server = stack.enter_context(running_server(folder))
        playwright = stack.enter_context(sync_playwright())
        page = first_page(stack.enter_context(browser(playwright, work / "desk", DESK, server.url)))
        Foreman(page).signs_in("Ruth Okello")
        ines = server.phone("Ines Varga")
        card = ines.new_card()
        ines.push([card.fact("TS 1 FIRST")])
        page.goto(f"/desk/{card.card}")
        expect(page.get_by_role("heading", name="TS 1 FIRST")).to_be_visible()
        taken: list[tuple[float, float]] = []
        before: tuple[str, ...] = ()
        for number in range(COUNT * 5 if long else COUNT):
            entry = card.fact(f"Corvane {number}", "vehicle/make", replaces=before)
            taken.append(_once(page, ines, entry))
            before = (entry["id"],)
    floor = [answered for answered, _ in taken]
    shown = [seen for _, seen in taken]
    table(
        f"From the push of one entry to the open card at the desk, {len(taken)} times, ms",
        ("", "p50", "p95", "longest"),
        [
            ("floor: push answered, then one pull", *(f"{1000 * of:.0f}" for of in _figures(floor))),
            ("baycard: shown at the desk", *(f"{1000 * of:.0f}" for of in _figures(shown))),
            ("ratio", *(ratio(ours, bare) for ours, bare in zip(_figures(shown), _figures(floor), strict=True))),
        ],
    )


def _once(page: Page, ines: OverTheWire, entry: Json) -> tuple[float, float]:
    """Seconds until a bare client has answer and pull behind it, and until the desk shows the entry."""
    begun = time.monotonic()
    arrival: int = ines.push([entry])[0]["arrival"]
    answered = time.monotonic()
    page.wait_for_function(SHOWN, arg=entry["body"]["value"])
    shown = time.monotonic() - begun
    asked = time.monotonic()
    ines.pull(arrival - 1)
    return answered - begun + time.monotonic() - asked, shown


def _figures(seconds: list[float]) -> tuple[float, float, float]:
    return median(seconds), percentile(seconds, 0.95), max(seconds)
