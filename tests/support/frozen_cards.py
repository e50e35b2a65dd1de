"""Frozen cards for tests of the report: the demo's, and small ones written line by line."""

import hashlib
from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import (
    Book,
    Check,
    ChoiceAnswer,
    CodesAnswer,
    NumberAnswer,
    PhotoAnswer,
    RunAnswer,
    SoundAnswer,
    SpreadAnswer,
    TextAnswer,
)
from baycard.demo.pen import Pen, Staff, Story, Writer, begin
from baycard.demo.pickup import pickup_after_work, pickup_as_found
from baycard.journal.digest import digest
from baycard.journal.entry import Entry
from baycard.journal.freeze import PinnedChecklist, freeze
from baycard.journal.standing import standing
from baycard.report.frozen import EarlierRevision, FrozenCard
from baycard.sync.clean_photo import print_size

START_MS = 1_795_165_200_000
STAFF = Staff(Writer("ines", "phone-1"), Writer("tom", "phone-2"), Writer("ruth", "desk"))
NAMES = {"ines": "Ines Varga", "tom": "Tom Abara", "ruth": "Ruth Okello"}


@cache
def seed_book() -> Book:
    """The book that comes with Baycard."""
    return load_book(seed_folder())


def sign(story: Story, drive: str = "yes", **body: str) -> Entry:
    """Sign a story off as the desk does; the sign-off becomes its last entry."""
    entries = list(story.entries)
    revision = 1 + sum(entry.kind == "signed-off" for entry in entries)
    words = {"restrictions": "", "look_again": "", "words": "", **body}
    ids = [entry.id for entry in entries]
    seal = {"revision": revision, "count": len(ids), "digest": digest(ids), "arrival": len(ids)}
    sha256 = freeze(story.card, pins(entries), entries)
    return Pen(story, STAFF.ruth).write("signed-off", "stage", {**seal, "sha256": sha256, "drive": drive, **words})


def pins(entries: Sequence[Entry]) -> list[PinnedChecklist]:
    """The checklist versions that the entries pin."""
    chosen = [one for stand in standing(entries).values() for one in stand if one.kind == "checklist-chosen"]
    return [PinnedChecklist(one.slot.split("/")[2], one.body["version"], one.body["sha256"]) for one in chosen]


def frozen(story: Story, *, blobs: Callable[[str], bytes | None] | None = None) -> FrozenCard:
    """The last signed revision of a story."""
    signed = [at for at, entry in enumerate(story.entries) if entry.kind == "signed-off"]
    before = [EarlierRevision(story.entries[at], tuple(story.entries[:at])) for at in signed[:-1]]
    entries = tuple(story.entries[: signed[-1]])
    found = [seed_book().checklist(pin.id, pin.version) for pin in pins(entries)]
    return FrozenCard(
        card=story.card,
        workshop="Tern Street Garage",
        entries=entries,
        signed_off=story.entries[signed[-1]],
        checklists=tuple(one for one in found if one),
        names=NAMES,
        blobs=blobs or blobs_of(story),
        earlier=before[-1] if before else None,
    )


def blobs_of(story: Story) -> Callable[[str], bytes | None]:
    """The story's photos at print size."""
    small = {sha256: print_size(data) for sha256, data in story.photos.items()}
    return small.get


@cache
def pickup_signed() -> FrozenCard:
    """The demo's pickup, signed as found."""
    story, _ = pickup_as_found(STAFF, seed_book(), START_MS)
    sign(story, "no", look_again="After the bearing is done.")
    return frozen(story)


@cache
def pickup_repaired() -> FrozenCard:
    """The demo's pickup, signed again after the work."""
    story, found = pickup_as_found(STAFF, seed_book(), START_MS)
    sign(story, "no")
    pickup_after_work(story, found, STAFF)
    sign(story, "with-restrictions", restrictions="Not over 60 mph, no towing.", look_again="In two weeks.")
    return frozen(story)


def small_card(write: Callable[[Pen], object], **signing: Any) -> FrozenCard:
    """A card that holds what `write` writes, signed."""
    story = begin("small", START_MS)
    write(Pen(story, STAFF.ines))
    sign(story, **signing)
    return frozen(story)


def answer_all(pen: Pen, checklist: str) -> None:
    """Choose a checklist and answer every question of it, in order wherever the limits are known."""
    pen.choose(seed_book(), checklist)
    found = seed_book().checklist(checklist)
    for check in found.checks if found else ():
        for place in check.at:
            _answer(pen, check, f"{checklist}/{check.id}/{place}")


def _answer(pen: Pen, check: Check, step: str) -> None:
    answer = check.answer
    if isinstance(answer, ChoiceAnswer):
        pen.choice(step, next(one.id for one in answer.options if one.means != "beyond"))
    elif isinstance(answer, NumberAnswer | SpreadAnswer | RunAnswer):
        _measure(pen, check, answer, step)
    elif isinstance(answer, TextAnswer):
        pen.words(step, "As usual.")
    elif isinstance(answer, CodesAnswer):
        pen.write("answer", f"{step}/{pen.round}", {"is": "codes", "codes": []})
    elif isinstance(answer, PhotoAnswer):
        for _ in range(answer.least):
            pen.photo("sill", f"{step}/{pen.round}", "")
    elif isinstance(answer, SoundAnswer):
        pen.not_checked(step, "no-tool")


def _measure(pen: Pen, check: Check, answer: NumberAnswer | SpreadAnswer | RunAnswer, step: str) -> None:
    unit, instrument, value = answer.unit, next(iter(answer.instruments), ""), _fair_value(check, answer.range)
    if isinstance(answer, NumberAnswer):
        pen.number(step, [value], unit, instrument)
    elif isinstance(answer, SpreadAnswer):
        pen.spread(step, {point.id: value for point in answer.points}, unit, instrument)
    else:
        pen.run(step, [(0, value), (answer.seconds, value)], unit, instrument)


def _fair_value(check: Check, bounds: tuple[float, float]) -> float:
    """A value of the range that no limit of the check's is crossed by, where one is found."""
    low, high = bounds
    tried = [round(low + (high - low) * part / 50, 2) for part in range(1, 50)]
    limits = [limit for limit in check.limits if limit.of in ("value", "min", "max")]
    fair = (
        value
        for value in tried
        if not any(
            (one.above is not None and value > one.above) or (one.below is not None and value < one.below)
            for one in limits
        )
    )
    return next(fair, tried[0])


def sha256_of(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()
