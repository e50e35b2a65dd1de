"""The ways in which one and the same screen is seen: devices, languages, text sizes, colours, light."""

from __future__ import annotations

import re
from dataclasses import dataclass

from playwright.sync_api import Page

from tests.journeys.browsers import Screen
from tests.journeys.waits import waits_until


@dataclass(frozen=True)
class Manner:
    """One way of looking.

    feel: labels chosen on "This phone"; turned: from right to left, in Arabic letters; keyboard: the lower half is
    covered by one; few: only the screens that matter most in this manner.
    """

    name: str
    screen: Screen
    locale: str = "en-GB"
    feel: tuple[str, ...] = ()
    turned: bool = False
    keyboard: bool = False
    few: bool = False


def phone(width: int, height: int) -> Screen:
    """A phone's screen, one picture dot for each of the page's."""
    return Screen(width, height, touch=True)


BAY = (
    Manner("phone", phone(360, 740)),
    Manner("small", phone(320, 640)),
    Manner("small, text 200 %", phone(320, 640), feel=("200",), few=True),
    Manner("German", phone(360, 740), locale="de-DE"),
    Manner("right to left", phone(360, 740), locale="de-DE", turned=True),
    Manner("dark", phone(360, 740), feel=("Dark",), few=True),
    Manner("glare", phone(360, 740), feel=("Glare",), few=True),
    Manner("landscape", phone(740, 360), few=True),
    Manner("keyboard up", phone(360, 360), keyboard=True, few=True),
    Manner("left hand", phone(360, 740), feel=("Left",), few=True),
)
DESK = (
    Manner("desk", Screen(1280, 800, touch=False)),
    Manner("desk, German", Screen(1280, 800, touch=False), locale="de-DE", few=True),
    Manner("desk, right to left", Screen(1280, 800, touch=False), locale="de-DE", turned=True, few=True),
    Manner("desk on a phone", phone(360, 740), few=True),
)


def take_up(page: Page, manner: Manner) -> None:
    """Choose on "This phone" what the manner asks for, in English."""
    if not manner.feel:
        return
    page.goto("/bay/phone")
    for label in manner.feel:
        page.get_by_role("radio", name=re.compile(f"^{label}")).click()


def settle(page: Page, manner: Manner) -> None:
    """The page as it stands in this manner, all its pictures there."""
    if manner.turned:
        page.evaluate("() => { document.documentElement.dir = 'rtl'; }")
    if manner.keyboard:
        page.evaluate("() => { document.documentElement.dataset.keyboard = 'up'; }")
    waits_until(page, "[...document.images].every((image) => image.complete)")
