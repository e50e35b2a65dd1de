"""The report with forty photos: the typesetter the product uses, against Chromium printing the same page."""

from __future__ import annotations

import hashlib
import multiprocessing
import resource
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import pikepdf
from playwright.sync_api import sync_playwright

from baycard.checklists.types import ChoiceAnswer
from baycard.demo.pen import Pen, begin
from baycard.journal.steps import steps
from baycard.report.frozen import FrozenCard
from baycard.report.html import render_html
from baycard.report.pdf import render_pdf
from baycard.sync.clean_photo import print_size
from tests.bench.cards import WALK
from tests.bench.photos import a_photo
from tests.bench.slow_phone import processes_mb
from tests.bench.tables import median, ratio, table
from tests.journeys.browsers import DESK, browser
from tests.support.frozen_cards import STAFF, START_MS, frozen, seed_book, sign

PHOTOS = 40
ROUNDS = 5


@dataclass(frozen=True)
class Printed:
    """How long each PDF took, the last one, and the memory of the process: before and at its peak."""

    seconds: list[float]
    data: bytes
    before_mb: float
    peak_mb: float


def run(work: Path, *, long: bool) -> None:
    """Measure and print."""
    rows = []
    for what, small in (("at print size, as the product keeps them", True), ("of 300 kB as sent", False)):
        context = multiprocessing.get_context("spawn")
        with ProcessPoolExecutor(1, mp_context=context) as pool:
            ours = pool.submit(typeset, small).result()
        theirs = in_chromium(work / f"profile-{small}", render_html(walked(small), seed_book()))
        floor = median(theirs.seconds)
        for name, printed in (("Chromium", theirs), ("WeasyPrint", ours)):
            rows.append(_row(f"{name}, photos {what}", printed, floor))
    table(
        f"The report of a card with {PHOTOS} photos (medians of {ROUNDS}, warm)",
        ("typesetter", "ms", "to Chromium", "pages", "kB", "tagged", "memory MB"),
        rows,
    )


def walked(small: bool) -> FrozenCard:
    """A signed card: every choice of the walk answered, and a photo about each of the first forty steps."""
    story = begin("bench", START_MS)
    pen = Pen(story, STAFF.ines)
    book = seed_book()
    pen.facts({"vehicle/plate": "TS 41 BKR", "vehicle/make": "Corvane", "vehicle/model": "Tadorna 1.6 D"})
    pen.complaint("Hums from the rear, louder with speed.")
    pen.choose(book, *WALK)
    places = [step for id_ in WALK for step in steps(next(one for one in book.checklists if one.id == id_), book)]
    for number, step in enumerate(places):
        slot = f"{step.checklist}/{step.check.id}/{step.place.id}"
        if isinstance(step.check.answer, ChoiceAnswer):
            options = step.check.answer.options
            pen.choice(slot, options[number % len(options)].id)
        if number < PHOTOS:
            _photo(pen, slot, number)
    sign(story)
    held = {sha256: print_size(data) for sha256, data in story.photos.items()} if small else dict(story.photos)
    return frozen(story, blobs=held.get)


def _photo(pen: Pen, slot: str, number: int) -> None:
    data = a_photo(number)
    sha256 = hashlib.sha256(data).hexdigest()
    pen.story.photos[sha256] = data
    body = {"blob": sha256, "mime": "image/jpeg", "bytes": len(data), "width": 1600, "height": 1200}
    more = {"about": f"{slot}/1", "round": 1, "caption": f"photo {number + 1}"}
    pen.write("photo", f"photo/{pen.story.uuid()}", body | more)


def typeset(small: bool) -> Printed:
    """In a process of its own: the first PDF warms it up, the others are timed."""
    card, book = walked(small), seed_book()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    data = render_pdf(card, book)
    seconds = []
    for _ in range(ROUNDS):
        begun = time.perf_counter()
        data = render_pdf(card, book)
        seconds.append(time.perf_counter() - begun)
    return Printed(seconds, data, before, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def in_chromium(profile: Path, html: str) -> Printed:
    """The same page, its photos inside it, printed by a warm Chromium; memory is that of the processes with pages."""
    seconds = []
    with sync_playwright() as playwright, browser(playwright, profile, DESK, "http://127.0.0.1") as context:
        page = context.pages[0]
        before = peak = processes_mb(profile)
        for number in range(ROUNDS + 1):
            begun = time.perf_counter()
            page.set_content(html, wait_until="load")
            data = page.pdf(prefer_css_page_size=True, print_background=True, tagged=True)
            if number:
                seconds.append(time.perf_counter() - begun)
            peak = max(peak, processes_mb(profile))
    return Printed(seconds, data, before, peak)


def _row(name: str, printed: Printed, floor: float) -> tuple[object, ...]:
    with pikepdf.open(BytesIO(printed.data)) as pdf:
        pages, tagged = len(pdf.pages), "/StructTreeRoot" in pdf.Root
    ms = 1000 * median(printed.seconds)
    memory = f"{printed.before_mb:.0f} -> {printed.peak_mb:.0f}"
    return (
        name, f"{ms:.0f}", ratio(ms / 1000, floor), pages, f"{len(printed.data) / 1000:.0f}",
        "yes" if tagged else "no", memory,
    )  # fmt: skip
