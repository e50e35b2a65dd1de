"""Cards for the phone's measurements, put on the server by another device of the same person."""

from __future__ import annotations

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book, ChoiceAnswer
from baycard.journal.steps import steps
from tests.bench.wire import Entries, PhoneClient
from tests.support.builders import CardBuilder, Json

WALK = ("underbody", "bearing-play")
LONG_WALK = (
    *WALK,
    "fluid-leaks",
    "engine-bay",
    "steering-suspension",
    "tyres-wheels",
    "brakes",
    "electrical",
    "cooling",
)


def card(client: PhoneClient, checklists: tuple[str, ...] = WALK, entries: int = 0) -> str:
    """A card with these checklists, filled with answers of earlier rounds up to so many entries; gives its id."""
    book = load_book(seed_folder())
    pen = CardBuilder(client.author, client.device)
    made: Entries = [pen.fact("TS 41 BKR"), pen.fact("Corvane", "vehicle/make"), pen.fact("Tadorna", "vehicle/model")]
    for id_ in checklists:
        chosen = next(one for one in book.checklists if one.id == id_)
        body = {"version": chosen.version, "sha256": chosen.sha256}
        made.append(pen.entry("checklist-chosen", f"card/checklist/{id_}", body))
    made += _answers(pen, book, checklists, entries - len(made))
    client.push(made)
    return pen.card


def _answers(pen: CardBuilder, book: Book, checklists: tuple[str, ...], count: int) -> list[Json]:
    """Choices as found; each is corrected again and again until there are enough."""
    slots = [
        (f"{id_}/{step.check.id}/{step.place.id}/1", step.check.answer.options[0].id)
        for id_ in checklists
        for step in steps(next(one for one in book.checklists if one.id == id_), book)
        if isinstance(step.check.answer, ChoiceAnswer)
    ]
    made: list[Json] = []
    last: dict[str, str] = {}
    for number in range(max(0, count)):
        slot, choice = slots[number % len(slots)]
        before = (last[slot],) if slot in last else ()
        made.append(pen.entry("answer", slot, {"is": "choice", "choice": choice}, before))
        last[slot] = made[-1]["id"]
    return made


def size_of_walk(checklists: tuple[str, ...] = WALK) -> int:
    """How many checks the walk has."""
    book = load_book(seed_folder())
    return sum(len(steps(one, book)) for one in book.checklists if one.id in checklists)
