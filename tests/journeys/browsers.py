"""Real Chromium as a phone and as a desk, with a profile folder that outlives the browser."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, Playwright

QUIET = [
    "--no-sandbox",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--disable-default-apps",
    "--disable-quic",
    "--disable-domain-reliability",
]
CAMERA = ["--use-fake-device-for-media-stream"]
ANSWERS = {True: "--use-fake-ui-for-media-stream", False: "--use-fake-ui-for-media-stream=deny"}
PATIENCE_MS = 15_000


@dataclass(frozen=True)
class Screen:
    """What kind of device a browser pretends to be."""

    width: int
    height: int
    touch: bool
    pixels: int = 1


PHONE = Screen(360, 740, touch=True, pixels=2)
DESK = Screen(1280, 800, touch=False)


def chromium_path() -> str | None:
    """The system's Chromium, or None for Playwright's own."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


@contextmanager
def browser(
    playwright: Playwright,
    profile: Path,
    screen: Screen,
    url: str,
    *,
    locale: str = "en-GB",
    time_zone: str | None = None,
    allows: bool = True,
    offline_copy: bool = True,
) -> Iterator[BrowserContext]:
    """A browser over a profile folder; closing it and opening another over the same folder is the same device.

    locale: the language the person told the browser; time_zone: as in "Europe/Oslo", None for the machine's;
    allows: whether the person lets the page use camera and microphone;
    offline_copy: False keeps the app from caching itself, so that a test can hand it other files.
    """
    context = playwright.chromium.launch_persistent_context(
        str(profile),
        executable_path=chromium_path(),
        args=QUIET + CAMERA + [ANSWERS[allows]],
        viewport={"width": screen.width, "height": screen.height},
        has_touch=screen.touch,
        is_mobile=screen.touch,
        device_scale_factor=screen.pixels,
        base_url=url,
        locale=locale,
        timezone_id=time_zone,
        service_workers="allow" if offline_copy else "block",
        permissions=["camera", "microphone"] if allows else [],
    )
    context.set_default_timeout(PATIENCE_MS)
    try:
        yield context
    except BaseException:
        _take_pictures(context, profile)
        raise
    finally:
        context.close()


def _take_pictures(context: BrowserContext, profile: Path) -> None:
    """What every page showed when the journey failed, in the folder that BAYCARD_PICTURES names."""
    folder = os.environ.get("BAYCARD_PICTURES")
    if folder is None:
        return
    for number, page in enumerate(context.pages):
        page.screenshot(path=Path(folder) / f"{profile.name}-{number}.png")


def first_page(context: BrowserContext) -> Page:
    """The page the browser opens with, watched for errors of our own."""
    page = context.pages[0] if context.pages else context.new_page()
    page.on("pageerror", _fail)
    return page


def _fail(error: object) -> None:
    raise AssertionError(f"the page threw: {error}")
