"""The walk through the screens: each visit brings the page somewhere and gives the caption of the next picture."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from uuid import uuid4

from playwright.sync_api import Page, Route

from tests.journeys.waits import waits_until

Visit = Callable[[Page, dict[str, str]], Iterator[str]]

SCREENS = ("", "/book-in", "/findings", "/recheck", "/hand-in", "/steps/1/all", "/work-done/new")
CHECKS = {
    "choice": "van/bearing-play/rock-12-6/front-left",
    "number, too far": "van/bearing-play/rim-movement/rear-left",
    "number, open": "van/fluid-leaks/distance-since-full/level-engine-oil",
    "spread": "estate/brakes/pad/front-left",
    "run": "van/fluid-leaks/drip-count/leak-1",
    "run, open": "van/intake-pressure/suspect-run/suspect-1",
    "sound": "van/bearing-play/spin-sound/front-left",
    "text": "van/fluid-leaks/from-where/leak-1",
    "worked out": "van/intake-pressure/leak-rate/intake",
    "long choice": "van/intake-pressure/smoke/joint-cold-hose",
}
NOT_ALLOWED = """() => {
  const refuse = () => Promise.reject(new DOMException("", "NotAllowedError"));
  Object.defineProperty(navigator.mediaDevices, "getUserMedia", { value: refuse });
}"""


def opens(page: Page, path: str) -> None:
    """A screen by its address, drawn."""
    page.goto(path)
    page.locator("h1").first.wait_for(state="attached")


def passes_cautions(page: Page) -> None:
    """Read what must be read before the check."""
    gate = page.locator(".screen .caution")
    page.locator("[data-step]").or_(gate).first.wait_for(state="attached")
    if gate.count() and not page.locator("[data-step]").count():
        page.locator(".foot button").first.click()
        page.locator("[data-step]").wait_for()


def check_path(cards: dict[str, str], where: str, round_: int = 1) -> str:
    """The address of a check, in the walk of everything."""
    card, _, spot = where.partition("/")
    return f"/bay/{cards[card]}/walk/{round_}/all/{spot}"


def bay_screens(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """The screens of a full card."""
    opens(page, "/")
    page.locator(".ticket").first.wait_for()
    yield "cards"
    for path in SCREENS:
        opens(page, f"/bay/{cards['van']}{path}")
        yield f"van{path}"
    opens(page, f"/bay/{cards['pickup']}/recheck")
    yield "recheck with rounds"
    opens(page, "/bay/phone")
    yield "this phone"


def checks(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """Every kind of answer."""
    opens(page, check_path(cards, CHECKS["choice"]))
    page.locator(".caution, [data-step]").first.wait_for()
    yield "cautions"
    for name, where in CHECKS.items():
        opens(page, check_path(cards, where))
        passes_cautions(page)
        yield f"check: {name}"
    page.locator(".evidence-acts button").last.click()
    yield "could not check"


def key_checks(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """The checks that show whether a manner holds."""
    opens(page, "/")
    page.locator(".ticket").first.wait_for()
    yield "cards"
    opens(page, f"/bay/{cards['van']}")
    yield "van"
    for name in ("choice", "number, open", "number, too far", "spread", "run, open"):
        opens(page, check_path(cards, CHECKS[name]))
        passes_cautions(page)
        yield f"check: {name}"


def fields(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """Typing with a keyboard over half the screen."""
    opens(page, f"/bay/{cards['van']}/book-in")
    page.locator("main textarea").nth(1).focus()
    yield "typing a complaint"
    opens(page, check_path(cards, CHECKS["text"]))
    passes_cautions(page)
    page.locator("main textarea").first.focus()
    yield "typing an answer"
    opens(page, f"/bay/{cards['van']}/work-done/new")
    page.locator("main textarea").first.focus()
    yield "typing what was done"
    page.locator("main textarea").first.fill("Hub changed")
    for screen in ("", "/hand-in"):
        opens(page, f"/bay/{cards['van']}{screen}")
        page.locator(".half-written").wait_for()
        yield f"begun, not kept{screen}"
    opens(page, f"/bay/{cards['van']}/work-done/new")
    page.locator("main textarea").first.fill("")
    opens(page, f"/bay/{cards['van']}/steps/1/all")
    page.locator(".foot input").focus()
    yield "searching in all checks"


def long_words(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """Names and complaints that are longer than anybody planned, and another script."""
    for card in ("long", "arabic"):
        for path in ("", "/book-in", "/steps/1/all"):
            opens(page, f"/bay/{cards[card]}{path}")
            yield f"{card}{path}"
        opens(page, f"/bay/{cards[card]}/walk/1/all/bearing-play/rim-movement/rear-left")
        passes_cautions(page)
        yield f"{card}, a check"


def pictures(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """The camera, a photo in full, drawing on it, the vehicle's number by camera, and a camera that is refused."""
    where = check_path(cards, CHECKS["number, too far"])
    opens(page, where)
    passes_cautions(page)
    page.locator(".thumb-button").first.click()
    page.locator(".photo-whole").wait_for()
    yield "a photo in full"
    page.locator(".finder-acts button").nth(1).click()
    page.locator(".board canvas").wait_for()
    yield "drawing on a photo"
    opens(page, where)
    passes_cautions(page)
    page.locator(".way button").nth(2).click()
    page.locator(".finder video").wait_for()
    waits_until(page, "document.querySelector('.finder video').readyState >= 2")
    yield "camera"
    page.keyboard.press("Escape")
    page.evaluate(NOT_ALLOWED)
    page.locator(".way button").nth(2).click()
    page.locator(".finder [role=alert]").wait_for()
    yield "camera refused"
    opens(page, f"/bay/{cards['van']}/book-in")
    page.locator(".vin-field button, .field-box button").first.click()
    page.locator(".finder").wait_for()
    yield "vehicle number by camera"


def trouble(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """No network, an entry the server refuses, a photo it refuses."""
    page.route("**/api/**", lambda route: route.abort())
    opens(page, f"/bay/{cards['van']}/book-in")
    field = page.locator("main input").first
    field.fill(f"TS {uuid4().hex[:4].upper()}")
    field.blur()
    opens(page, "/bay/phone")
    yield "no network"
    page.unroute("**/api/**")
    page.route("**/api/sync/push", refuses_entries)
    # what the server did keep must not come back and clear the refusal
    page.route("**/api/sync/pull**", lambda route: route.abort())
    page.route("**/api/blobs/**", refuses_photos)
    where = check_path(cards, CHECKS["number, open"])
    opens(page, where)
    passes_cautions(page)
    page.locator(".way button").nth(2).click()
    page.locator(".finder input[type=file]").set_input_files(
        {"name": "dial.png", "mimeType": "image/png", "buffer": page.screenshot()}
    )
    page.locator(".thumb").first.wait_for()
    opens(page, "/bay/phone")
    page.locator("main .told").first.wait_for()
    yield "entry and photo refused"
    opens(page, f"/bay/{cards['van']}")
    yield "card with something refused"


def refuses_entries(route: Route) -> None:
    """Let the server answer, then say no to everything in its name."""
    answer = route.fetch()
    told = answer.json()
    no = {
        "outcome": "refused",
        "code": "bad-body",
        "title": "This entry cannot be read.",
        "do": "Write it again; the old one stays on this phone until then.",
    }
    told["results"] = [{"count": one["count"]} | no for one in told.get("results", [])]
    route.fulfill(response=answer, json=told)


def refuses_photos(route: Route) -> None:
    """What the server says to something that is no picture."""
    if route.request.method != "PUT":
        route.fallback()
        return
    told = {
        "status": 422,
        "code": "not-a-photo-or-sound",
        "title": "This is neither a photo nor a sound.",
        "do": "Send JPEG, PNG or WebP.",
    }
    server = route.fetch(url=route.request.url.split("/api/")[0] + "/api/ping", method="GET")
    route.fulfill(response=server, status=422, json=told, content_type="application/problem+json")


def desk_screens(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """What the foreman sees."""
    opens(page, "/desk")
    page.locator(".desk-card").first.wait_for()
    yield "list"
    for name in ("van", "estate", "pickup", "long", "arabic"):
        opens(page, f"/desk/{cards[name]}")
        page.locator(".desk-sheet").wait_for()
        yield name
    opens(page, f"/desk/{cards['van']}")
    page.locator(".desk-decide button").last.click()
    yield "deciding"
    page.locator(".desk-photos button").first.click()
    page.locator("dialog img").wait_for()
    yield "a photo in full"
    opens(page, "/desk/019ab300-0000-7000-8000-000000000000")
    yield "a card that is not here"


def desk_few(page: Page, cards: dict[str, str]) -> Iterator[str]:
    """The list, a card with everything, and the one with long words."""
    opens(page, "/desk")
    page.locator(".desk-card").first.wait_for()
    yield "list"
    for name in ("van", "long"):
        opens(page, f"/desk/{cards[name]}")
        page.locator(".desk-sheet").wait_for()
        yield name
