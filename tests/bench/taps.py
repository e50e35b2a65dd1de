"""Taps and keystrokes for whole walks, made by a scripted technician in a real browser."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import sync_playwright

from baycard.checklists.types import Checklist, SoundAnswer, WorkedOutAnswer
from baycard.journal.steps import steps
from tests.bench import cards
from tests.bench.process import baycard
from tests.bench.slow_phone import phone
from tests.bench.tables import table
from tests.bench.wire import PhoneClient
from tests.journeys.technician import Technician
from tests.support.frozen_cards import seed_book
from tests.support.photos import jpeg, scene

MORE = ("brakes", "tyres-wheels")


def run(work: Path, *, long: bool) -> None:
    """Walk and print."""
    book = seed_book()
    wanted = (*cards.WALK, *MORE) if long else cards.WALK
    rows = []
    with ExitStack() as stack:
        served = stack.enter_context(baycard(work / "data"))
        client = PhoneClient(served.port)
        made = {id_: cards.card(client, (id_,)) for id_ in wanted}
        playwright = stack.enter_context(sync_playwright())
        context = stack.enter_context(phone(playwright, work / "profile", f"http://127.0.0.1:{served.port}"))
        page = context.pages[0]
        technician = Technician(page, book, {"photo": jpeg(scene(800, 600))}, work)
        technician.signs_in("Ines Varga")
        for id_, card in made.items():
            page.goto("/")
            page.locator(f'a[href="/bay/{card}"]').wait_for()
            technician.answered.clear()
            technician.walks(card, id_, {})
            counted = page.evaluate("({ ...bench })")
            checklist = next(one for one in book.checklists if one.id == id_)
            rows.append(_row(checklist, technician.answered, counted))
    table(
        "Taps and keystrokes for a whole walk, every check answered plainly",
        ("checklist", "checks walked", "taps", "of them digits", "letters typed", "a check", "floor", "ratio"),
        rows,
    )
    print("Floor: one tap a check, one more for a sound's end, and the digits and letters themselves.")


def _row(checklist: Checklist, slots: list[str], counted: dict[str, int]) -> tuple[object, ...]:
    walked = len(slots)
    sounds = sum(isinstance(step.check.answer, SoundAnswer) for step in steps(checklist, seed_book()))
    computed_checks = {check.id for check in checklist.checks if isinstance(check.answer, WorkedOutAnswer)}
    computed = sum(slot.split("/")[1] in computed_checks for slot in slots)
    content = counted["digits"] + counted["typed"]
    floor = walked - computed + sounds + content
    made = counted["presses"] + counted["typed"]
    return (
        checklist.id, walked, counted["presses"], counted["digits"], counted["typed"],
        f"{made / walked:.2f}", floor, f"{made / floor:.2f}x",
    )  # fmt: skip
