"""`make sheet`: visit every screen in every manner and write contact sheets to a folder that is not committed.

`python -m tools.contact_sheet --only "German" --only "desk"` takes only those manners.
"""

from __future__ import annotations

import argparse
import json
import re
import tempfile
from collections.abc import Iterable
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, Playwright, Route, sync_playwright

from tests.journeys.browsers import browser, first_page
from tests.journeys.pseudo import pseudo_catalogue
from tests.support.demo_server import DEMO_SECRET, DemoServer, demo_server
from tools.contact_sheet import visits
from tools.contact_sheet.cards import bring
from tools.contact_sheet.manners import BAY, DESK, Manner, settle, take_up
from tools.contact_sheet.paper import TALLEST, Picture, lay_out

FOLDER = Path(__file__).resolve().parents[2] / "contact-sheets"


def main() -> int:
    """Write the sheets, and say where they are."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", action="append", default=[], help="the name of a manner; may be given several times")
    parser.add_argument("--folder", type=Path, default=FOLDER)
    asked = parser.parse_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as name, demo_server(Path(name)) as server, sync_playwright() as playwright:
        for number, manner in enumerate((*BAY, *DESK)):
            if not asked.only or manner.name in asked.only:
                pictures = take(playwright, server, manner, Path(name) / f"profile-{number}")
                for sheet in lay_out(manner.name, pictures, asked.folder):
                    print(sheet, flush=True)
    return 0


def take(playwright: Playwright, server: DemoServer, manner: Manner, profile: Path) -> list[Picture]:
    """All pictures in one manner."""
    with ExitStack() as stack:
        context = stack.enter_context(
            browser(playwright, profile, manner.screen, server.url, locale=manner.locale, offline_copy=False)
        )
        page = first_page(context)
        if manner.turned:
            page.route(re.compile(r"/assets/de-[\w-]+\.js$"), _turned)
        taken = [_picture(page, manner, "sign-in")] if _goes_to_the_door(page) else []
        _signs_in(page, "Ruth Okello")
        cards = server.cards | _brought(context)
        take_up(page, manner)
        for visit in _visits(manner):
            taken += [_picture(page, manner, caption) for caption in visit(page, cards)]
        return taken


_more_cards: dict[str, str] = {}


def _brought(context: BrowserContext) -> dict[str, str]:
    """The cards beyond the demo's, brought once for all manners."""
    if not _more_cards:
        _more_cards.update(bring(context))
    return _more_cards


def _visits(manner: Manner) -> Iterable[visits.Visit]:
    if manner in DESK:
        return [visits.desk_few if manner.few else visits.desk_screens]
    if manner.keyboard:
        return [visits.fields]
    if manner.few:
        return [visits.key_checks]
    return [visits.bay_screens, visits.checks, visits.long_words, visits.pictures, visits.trouble]


def _picture(page: Page, manner: Manner, caption: str) -> Picture:
    settle(page, manner)
    whole = not manner.keyboard and "check" not in caption and page.locator("dialog[open], .finder").count() == 0
    if whole:
        # a tall screen rather than a "full page": what sticks to the lower edge stays there
        height: int = page.evaluate("() => document.documentElement.scrollHeight")
        page.set_viewport_size(
            {"width": manner.screen.width, "height": max(manner.screen.height, min(height, TALLEST))}
        )
    png = page.screenshot()
    page.set_viewport_size({"width": manner.screen.width, "height": manner.screen.height})
    return Picture(f"{manner.name}: {caption}", png)


def _goes_to_the_door(page: Page) -> bool:
    page.goto("/")
    page.locator("input[type=password]").wait_for()
    return True


def _signs_in(page: Page, name: str) -> None:
    page.locator("input[autocomplete=username]").fill(name)
    page.locator("input[type=password]").fill(DEMO_SECRET)
    page.locator("button[type=submit]").click()
    page.locator("form").wait_for(state="detached")


def _turned(route: Route) -> None:
    body = f"export default {json.dumps(pseudo_catalogue(), ensure_ascii=False)};"
    route.fulfill(body=body, content_type="text/javascript; charset=utf-8")


if __name__ == "__main__":
    raise SystemExit(main())
