"""The app at a quarter of this machine's pace, against a bare page: start, taps, typing, scrolling, photos."""

from __future__ import annotations

import gzip
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import BrowserContext, CDPSession, Locator, Page, expect, sync_playwright

from tests.bench import bare, cards, photo_walk
from tests.bench.process import ROOT, baycard
from tests.bench.slow_phone import Shown, phone, shown, slow_page, touch, wait_for
from tests.bench.tables import median, percentile, ratio, table
from tests.bench.wire import PhoneClient
from tests.support.server import secret_of

ROUNDS = 7
TAPS = 20
BARE_LIST = "li:nth-child(120)"
CHECK = "[data-step]"
LAST_ROW = ".stop-list:last-of-type .step-row:last-of-type"
TICKET = "a.ticket"
STATIC = ROOT / "baycard" / "web" / "static"


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    with ExitStack() as stack:
        served = stack.enter_context(baycard(work / "data"))
        client = PhoneClient(served.port)
        small, filled = cards.card(client), cards.card(client, entries=400)
        longest = cards.card(client, cards.LONG_WALK)
        bare_url = stack.enter_context(bare.serving(bare.build(work)))
        playwright = stack.enter_context(sync_playwright())
        app = stack.enter_context(phone(playwright, work / "app", f"http://127.0.0.1:{served.port}"))
        other = stack.enter_context(phone(playwright, work / "bare_profile", bare_url))
        scripts = sign_in(app, small)
        read_cautions(app, (small, filled))
        warm_bare(other)
        start(app, other, small)
        taps(app, other, small, filled)
        typing(app, filled)
        scrolling(app, other, {cards.size_of_walk(): filled, cards.size_of_walk(cards.LONG_WALK): longest})
        photo_walk.measure(app, work / "app", small, 100 if long else 30)
        first_scripts(scripts)


def sign_in(app: BrowserContext, card: str) -> list[str]:
    """Sign in, let everything be pulled and cached; gives the scripts up to an open card, in order."""
    page = app.new_page()
    scripts: list[str] = []
    page.on("request", lambda request: scripts.append(request.url) if request.resource_type == "script" else None)
    page.goto("/")
    page.get_by_label("Name", exact=True).fill("Ines Varga")
    page.get_by_label("Secret").fill(secret_of("Ines Varga"))
    page.get_by_role("button", name="Sign in").click()
    expect(page.locator(TICKET)).to_have_count(3)
    page.evaluate("navigator.serviceWorker.ready")
    page.goto(f"/bay/{card}/steps/1/all")
    page.locator(LAST_ROW).wait_for()
    assert page.evaluate("navigator.serviceWorker.controller !== null")
    page.close()
    return list(dict.fromkeys(scripts))


def read_cautions(app: BrowserContext, ids: tuple[str, ...]) -> None:
    """Read the cautions once, as a technician does on every card."""
    page = app.new_page()
    for card in ids:
        for checklist in cards.WALK:
            page.goto(f"/bay/{card}/walk/1/{checklist}")
            past_cautions(page)
    page.close()


def past_cautions(page: Page) -> None:
    """Read the cautions, if there are any, and stand before the check."""
    read, step = page.get_by_role("button", name="I have read this"), page.locator(CHECK)
    over = page.get_by_role("heading", name="Nothing left on this walk")
    expect(read.or_(step).or_(over).first).to_be_visible()
    if read.is_visible():
        read.click()
        expect(step.first).to_be_visible()


def warm_bare(other: BrowserContext) -> None:
    """Fill the bare page's database and cache."""
    page = other.new_page()
    for _ in range(3):
        page.goto("/")
        page.locator(BARE_LIST).wait_for()
        page.evaluate("navigator.serviceWorker.ready")
    page.close()


def start(app: BrowserContext, other: BrowserContext, card: str) -> None:
    """From a navigation without any network to a painted screen; all in turn."""
    wanted = {
        "bare list of 120 rows": (other, "/", BARE_LIST),
        "list of cards": (app, "/", TICKET),
        f"list of all {cards.size_of_walk()} checks": (app, f"/bay/{card}/steps/1/all", LAST_ROW),
        "the next check, ready for the tap": (app, f"/bay/{card}/walk/1/all", CHECK),
    }
    found: dict[str, list[Shown]] = {name: [] for name in wanted}
    for context in (app, other):
        context.set_offline(True)
    for _ in range(ROUNDS):
        for name, (context, path, selector) in wanted.items():
            found[name].append(shown(context, path, selector))
    for context in (app, other):
        context.set_offline(False)
    floor = _medians(next(iter(found.values())))
    rows = []
    for name, all_shown in found.items():
        ms = _medians(all_shown)
        rows.append(
            (
                name,
                f"{ms.after:.0f}",
                ratio(ms.after, floor.after),
                f"{ms.cpu:.0f}",
                ratio(ms.cpu, floor.cpu),
                f"{ms.scripts:.0f}",
            )
        )
    table(
        f"Start from the cache, offline, CPU slowed 4 times (medians of {ROUNDS}, in turn)",
        ("screen", "painted after ms", "to bare", "main thread CPU ms", "to bare", "of it scripts ms"),
        rows,
    )


def _medians(found: list[Shown]) -> Shown:
    return Shown(*(median([getattr(one, name) for one in found]) for name in ("after", "cpu", "scripts")))


def taps(app: BrowserContext, other: BrowserContext, small: str, filled: str) -> None:
    """A tap on an answer until it is on the disk, beside a bare strict write; then how soon the screen answered."""
    page, line = slow_page(other)
    page.goto("/")
    page.locator(BARE_LIST).wait_for()
    direct = [page.evaluate(f"strictWrite({-n})") for n in range(1, TAPS)]
    page.evaluate("bench.events.length = 0")
    floor = [timed_tap(page, line, page.get_by_role("button", name="Write")) for _ in range(TAPS)]
    rows = [
        _tap_row("bare strict write, no tap", direct, direct, []),
        _tap_row("bare strict write on a tap", floor, floor, interactions(page)),
    ]
    page.close()
    for offline in (True, False):
        app.set_offline(offline)
        for name, card in (("few entries", small), ("400 entries", filled)):
            page, line = slow_page(app)
            page.goto(f"/bay/{card}/steps/1/all")
            page.locator(".step-row").first.click()
            page.evaluate("bench.events.length = 0")
            kept = [answer_next(page, line) for _ in range(TAPS)]
            rows.append(_tap_row(f"{name}, {'offline' if offline else 'online'}", kept, floor, interactions(page)))
            page.close()
    table(
        f"Tap to kept, {TAPS} answers one after the other",
        ("what", "p50 ms", "p95 ms", "above bare tap", "INP (98th) ms", "interaction p50 ms"),
        rows,
    )


def _tap_row(name: str, ms: list[float], floor: list[float], seen: list[float]) -> tuple[str, ...]:
    return (
        name,
        f"{median(ms):.1f}",
        f"{percentile(ms, 0.95):.1f}",
        f"{median(ms) - median(floor):+.1f}",
        *((f"{percentile(seen, 0.98):.0f}", f"{median(seen):.0f}") if seen else ("", "")),
    )


def timed_tap(page: Page, line: CDPSession, target: Locator) -> float:
    """Touch something that writes; gives the ms from the tap until the write was on the disk."""
    page.evaluate("bench.kept.length = 0; bench.taps.length = 0")
    touch(page, line, target)
    return float(wait_for(page, "bench.kept.length && bench.taps.length && bench.kept[0] - bench.taps[0]"))


def answer_next(page: Page, line: CDPSession) -> float:
    """Answer the next choice of the walk; gives the ms from the tap until the answer was on the disk."""
    while True:
        past_cautions(page)
        choice = page.locator(f"{CHECK} [role=group] button.choice").first
        if choice.count() and choice.is_visible():
            break
        page.get_by_role("button", name="Next check").click()
    slot = page.locator(CHECK).get_attribute("data-step")
    took = timed_tap(page, line, choice)
    page.wait_for_timeout(800)
    if page.locator(f'[data-step="{slot}"]').count():
        page.get_by_role("button", name="Next check").click()
        expect(page.locator(f'[data-step="{slot}"]')).to_have_count(0)
    return took


def interactions(page: Page) -> list[float]:
    """The longest event of each interaction, in ms; those under 16 ms are not reported by the browser."""
    longest: dict[int, float] = {}
    for event in page.evaluate("bench.events"):
        if event["id"]:
            longest[event["id"]] = max(event["ms"], longest.get(event["id"], 0))
    return list(longest.values()) or [16.0]


def typing(app: BrowserContext, card: str) -> None:
    """Digits on the number pad."""
    page, line = slow_page(app)
    page.goto(f"/bay/{card}/walk/1/bearing-play/bearing-play/rim-movement/rear-left")
    past_cautions(page)
    question = page.get_by_role("radiogroup", name="What do you measure with?")
    expect(question.or_(page.locator(".pad")).first).to_be_visible()
    if question.is_visible():
        question.get_by_role("radio").first.click()
    page.evaluate("bench.longTasks.length = 0; bench.events.length = 0")
    for name in ("0", "Comma", "1", "2", "Erase", "Erase", "Erase", "Erase") * 3:
        touch(page, line, page.locator(".pad").get_by_role("button", name=name, exact=True))
    long_ms = [task["ms"] for task in page.evaluate("bench.longTasks")]
    seen = interactions(page)
    page.close()
    table(
        "24 taps on the number pad, 400 entries on the card",
        ("long tasks", "longest ms", "INP (98th) ms", "interaction p50 ms"),
        [(len(long_ms), f"{max(long_ms, default=0):.0f}", f"{percentile(seen, 0.98):.0f}", f"{median(seen):.0f}")],
    )


def scrolling(app: BrowserContext, other: BrowserContext, by_size: dict[int, str]) -> None:
    """The list of all checks, flung from the top; a card by the number of its checks."""
    rows = []
    for name, context, path, selector in (
        ("bare list of 120 rows", other, "/", BARE_LIST),
        *((f"list of {size} checks", app, f"/bay/{card}/steps/1/all", LAST_ROW) for size, card in by_size.items()),
    ):
        page, line = slow_page(context)
        page.goto(path)
        page.locator(selector).wait_for()
        page.wait_for_timeout(500)
        page.evaluate("window.running = bench.frames(2500)")
        gesture = {"x": 180, "y": 400, "yDistance": -3_500, "speed": 1_600, "gestureSourceType": "touch"}
        line.send("Input.synthesizeScrollGesture", gesture)
        lengths = page.evaluate("window.running")[2:]
        dropped = sum(max(0, round(one / 16.667) - 1) for one in lengths)
        rows.append((name, len(lengths), dropped, f"{max(lengths):.0f}", f"{percentile(lengths, 0.95):.1f}"))
        page.close()
    table("Scrolling at 4 times slower", ("list", "frames", "dropped", "longest frame ms", "p95 ms"), rows)


def first_scripts(urls: list[str]) -> None:
    """The JavaScript fetched before the first use, by file."""
    rows = []
    total = 0
    for url in urls:
        path = STATIC / url.split("/", 3)[3]
        if path.suffix != ".js" or not path.exists():
            continue
        small = len(gzip.compress(path.read_bytes(), 6))
        total += 0 if path.name == "sw.js" else small
        rows.append((path.name, f"{path.stat().st_size / 1000:.1f}", f"{small / 1000:.1f}", f"{total / 1000:.1f}"))
    table("JavaScript up to an open card, in the order it is fetched", ("file", "kB", "gzip kB", "sum gzip kB"), rows)
