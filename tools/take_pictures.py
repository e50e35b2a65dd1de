"""Take the pictures of the README from the demo workshop: the bay, the desk, the report."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, sync_playwright

from tests.journeys.browsers import DESK, PHONE, Screen, browser, first_page
from tests.support.demo_server import DEMO_SECRET, demo_server

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
REPORT_PAGES = 2
DOTS_PER_INCH = 60


def main() -> int:
    """Write docs/pictures/*.png."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, demo_server(Path(folder)) as server, sync_playwright() as playwright:
        with browser(playwright, Path(folder) / "phone", one_to_one(PHONE), server.url) as context:
            show_bay(first_page(context), server.cards["van"])
        with browser(playwright, Path(folder) / "desk", DESK, server.url) as context:
            show_desk(context, server.cards, Path(folder))
    return 0


def one_to_one(screen: Screen) -> Screen:
    """Small pictures are enough for a page about the program."""
    return Screen(screen.width, screen.height, screen.touch, pixels=1)


def show_bay(page: Page, card: str) -> None:
    """The list of cards, and a check that fills the screen."""
    sign_in(page, "Ines Varga")
    page.get_by_text("Corvane").first.wait_for()
    page.screenshot(path=PICTURES / "bay-cards.png")
    page.goto(f"/bay/{card}/walk/1/bearing-play/bearing-play/rim-movement/rear-left")
    page.get_by_role("button", name="I have read this").click()
    page.locator("[data-step]").wait_for()
    page.screenshot(path=PICTURES / "bay-check.png")


def show_desk(context: BrowserContext, cards: dict[str, str], folder: Path) -> None:
    """A card as the foreman sees it, and the first pages of a signed report."""
    page = first_page(context)
    sign_in(page, "Ruth Okello")
    page.goto(f"/desk/{cards['estate']}")
    page.get_by_role("heading", name="Findings, worst first").wait_for()
    page.get_by_role("img").first.wait_for()
    page.screenshot(path=PICTURES / "desk-card.png")
    report = context.request.get(f"/api/desk/cards/{cards['pickup']}/report/2.pdf")
    pdf = folder / "report.pdf"
    pdf.write_bytes(report.body())
    arguments = ["-png", "-r", str(DOTS_PER_INCH), "-l", str(REPORT_PAGES), str(pdf), str(PICTURES / "report")]
    subprocess.run(["pdftoppm", *arguments], check=True)
    for made in PICTURES.glob("report-0*.png"):
        made.rename(PICTURES / f"report-{int(made.stem.split('-')[1])}.png")


def sign_in(page: Page, name: str) -> None:
    """One of the demo's people."""
    page.goto("/")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Secret").fill(DEMO_SECRET)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="Cards").wait_for()


if __name__ == "__main__":
    raise SystemExit(main())
