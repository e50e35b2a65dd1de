"""Chromium slowed down to a phone's pace, with the instruments in every page."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, CDPSession, Locator, Page, Playwright

from tests.journeys.browsers import PHONE, browser

THROTTLE = 4
INSTRUMENTS = (Path(__file__).parent / "instruments.js").read_text()
PATIENCE_MS = 60_000
POLL_MS = 20
STILL_MS = 250


@contextmanager
def phone(playwright: Playwright, profile: Path, url: str) -> Iterator[BrowserContext]:
    """A browser over a profile folder."""
    with browser(playwright, profile, PHONE, url) as context:
        context.set_default_timeout(PATIENCE_MS)
        context.add_init_script(INSTRUMENTS)
        yield context


def slow_page(context: BrowserContext) -> tuple[Page, CDPSession]:
    """A new page at a quarter of the machine's pace, and the line to its browser."""
    page = context.new_page()
    line = context.new_cdp_session(page)
    line.send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
    return page, line


@dataclass(frozen=True)
class Shown:
    """When a screen was there and painted, and the CPU time of the page's main thread until then, scripts apart; ms."""

    after: float
    cpu: float
    scripts: float


def shown(context: BrowserContext, path: str, selector: str) -> Shown:
    """Navigate and wait until `selector` is there and painted."""
    page, line = slow_page(context)
    page.add_init_script(f"bench.whenShown({json.dumps(selector)})")
    line.send("Performance.enable", {"timeDomain": "threadTicks"})
    page.goto(path, wait_until="commit")
    try:
        after = float(wait_for(page, f"window.bench?.shown[{json.dumps(selector)}]"))
        metrics = _metrics(line)
        return Shown(after, 1000 * metrics["TaskDuration"], 1000 * metrics["ScriptDuration"])
    finally:
        page.close()


def wait_for(page: Page, expression: str) -> Any:
    """The value of an expression as soon as it is truthy; asked by the page itself, whose rules forbid `eval`."""
    tries = PATIENCE_MS // POLL_MS
    return page.evaluate(
        f"(async () => {{ for (let n = 0; n < {tries}; n += 1) {{ const value = {expression}; if (value) return value;"
        f" await new Promise((go) => setTimeout(go, {POLL_MS})); }} throw new Error('waited in vain'); }})()"
    )


def touch(page: Page, line: CDPSession, target: Locator) -> None:
    """Touch an element as a thumb does, then leave the page alone: Playwright's own look-ups would be measured too."""
    box = target.bounding_box()
    assert box is not None
    point = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
    page.wait_for_timeout(STILL_MS)
    line.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [point]})
    line.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_timeout(STILL_MS)


def garbage_free_heap_mb(line: CDPSession) -> float:
    """What the page's scripts hold after a collection, in MB."""
    line.send("HeapProfiler.collectGarbage")
    return _metrics(line)["JSHeapUsedSize"] / 1e6


def _metrics(line: CDPSession) -> dict[str, float]:
    return {each["name"]: float(each["value"]) for each in line.send("Performance.getMetrics")["metrics"]}


def processes_mb(profile: Path) -> float:
    """Resident memory of the browser's processes that show pages, in MB."""
    total = 0.0
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            command = (folder / "cmdline").read_bytes().decode(errors="replace")
            status = (folder / "status").read_text()
        except (FileNotFoundError, ProcessLookupError):
            continue
        if "--type=renderer" in command and _is_of(folder, profile):
            total += sum(int(line.split()[1]) for line in status.splitlines() if line.startswith("RssAnon")) / 1024
    return total


def _is_of(folder: Path, profile: Path) -> bool:
    """Whether an ancestor of a process was started over this profile."""
    while folder.name not in {"0", "1"}:
        try:
            if str(profile) in (folder / "cmdline").read_bytes().decode(errors="replace"):
                return True
            parent = (folder / "stat").read_text().rpartition(")")[2].split()[1]
        except (FileNotFoundError, ProcessLookupError):
            return False
        folder = Path("/proc") / parent
    return False
