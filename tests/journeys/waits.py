"""Waiting for what a script of the page promises."""

import time

from playwright.sync_api import Page


def waits_until(page: Page, promised: str, seconds: float = 30) -> None:
    """Until the promise of this script is true (`wait_for_function` takes any promise for true, and does not wait)."""
    deadline = time.monotonic() + seconds
    while not page.evaluate(promised):
        assert time.monotonic() < deadline, f"not true after {seconds} s: {promised}"
        page.wait_for_timeout(100)
