"""Writes the demo's entries as phones would: a step of the clock for each, replacing what the writer saw standing."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

from baycard.checklists.types import Book, ChoiceAnswer, Limit, Option
from baycard.demo.pictures import SIZE, picture
from baycard.journal.entry import Entry, EntryContext, new_entry
from baycard.journal.standing import standing
from baycard.journal.uuid7 import RANDOM_BYTES, uuid7

MINUTE_MS = 60_000


@dataclass(frozen=True, slots=True)
class Writer:
    """A person at a device."""

    person: str
    device: str


@dataclass(frozen=True, slots=True)
class Staff:
    """Who writes in the demo."""

    ines: Writer
    tom: Writer
    ruth: Writer


@dataclass(slots=True)
class Story:
    """One card being written: its entries so far, its photos by SHA-256, and a clock of its own."""

    card: str
    now_ms: int
    chance: Random
    entries: list[Entry] = field(default_factory=list)
    photos: dict[str, bytes] = field(default_factory=dict)

    def wait(self, minutes: float) -> None:
        """Let time pass."""
        self.now_ms += round(minutes * MINUTE_MS)

    def uuid(self) -> str:
        """A new id."""
        return uuid7(self.now_ms, self.chance.randbytes(RANDOM_BYTES))


def begin(name: str, start_ms: int) -> Story:
    """A new card; the same name and start give the same ids."""
    chance = Random(name)
    return Story(uuid7(start_ms, chance.randbytes(RANDOM_BYTES)), start_ms, chance)


@dataclass(frozen=True, slots=True)
class Pen:
    """One person's way of writing in a story."""

    story: Story
    writer: Writer
    round: int = 1

    def after_work(self) -> "Pen":
        """The same hand, in the round after work."""
        return replace(self, round=self.round + 1)

    def write(self, kind: str, slot: str, body: Mapping[str, Any], *, unseen: bool = False) -> Entry:
        """Add an entry. `unseen`: its writer had not seen what stands in the slot, as on a phone without signal."""
        story = self.story
        story.wait(0.7)
        stand = () if unseen else standing(story.entries).get(slot, ())
        context = EntryContext(
            story.card, self.writer.person, self.writer.device, lambda: story.now_ms, story.chance.randbytes
        )
        entry = new_entry(kind, slot, body, [entry.id for entry in stand], context)
        story.entries.append(entry)
        return entry

    def facts(self, facts: Mapping[str, str | int | tuple[float, str]]) -> None:
        """Facts by slot; a pair is a number with its unit."""
        for slot, value in facts.items():
            body = {"value": value[0], "unit": value[1]} if isinstance(value, tuple) else {"value": value}
            self.write("fact", slot, body)

    def complaint(self, words: str) -> str:
        """What the customer says; gives the complaint's id."""
        id = self.story.uuid()
        self.write("complaint", f"card/complaint/{id}", {"words": words})
        return id

    def choose(self, book: Book, *checklists: str) -> None:
        """Pin checklists in the versions of the book. Raises KeyError when the book has no such checklist."""
        for id in checklists:
            found = book.checklist(id)
            if found is None:
                raise KeyError(f"The book has no checklist {id!r}")
            self.write("checklist-chosen", f"card/checklist/{id}", {"version": found.version, "sha256": found.sha256})

    def choice(self, step: str, option: str, note: str = "") -> None:
        """Answer a choice check; step is checklist/check/place."""
        self._answer(step, {"is": "choice", "choice": option}, note)

    def number(self, step: str, values: list[float], unit: str, instrument: str, note: str = "") -> None:
        """Answer a number check with one reading, or with several and their mean."""
        mean = sum(values) / len(values)
        body: dict[str, Any] = {"is": "number", "value": mean, "unit": unit, "typed": str(values[-1])}
        if len(values) > 1:
            body["repeats"] = values
        self._answer(step, {**body, "instrument": instrument} if instrument else body, note)

    def spread(
        self, step: str, values: Mapping[str, float], unit: str, instrument: str, *, unseen: bool = False
    ) -> None:
        """Answer with readings at named points. `unseen` as for `write`."""
        body = {"is": "spread", "values": dict(values), "unit": unit, "instrument": instrument}
        self.write("answer", f"{step}/{self.round}", body, unseen=unseen)

    def run(self, step: str, samples: list[tuple[float, float]], unit: str, instrument: str) -> None:
        """Answer with timed readings: seconds since start, reading."""
        pairs = [list(sample) for sample in samples]
        self._answer(step, {"is": "run", "samples": pairs, "unit": unit, "instrument": instrument})

    def words(self, step: str, words: str) -> None:
        """Answer with words."""
        self._answer(step, {"is": "text", "words": words})

    def _answer(self, step: str, body: dict[str, Any], note: str = "") -> None:
        self.write("answer", f"{step}/{self.round}", {**body, "note": note} if note else body)

    def not_checked(self, step: str, reason: str, words: str = "") -> None:
        """Say why a step was not checked."""
        self.write("not-checked", f"{step}/{self.round}", {"reason": reason, "words": words})

    def photo(self, name: str, about: str | None, caption: str) -> str:
        """A drawn photo about a step, a finding or the card; gives the photo's id."""
        data = picture(name)
        sha256 = hashlib.sha256(data).hexdigest()
        self.story.photos[sha256] = data
        id = self.story.uuid()
        body = {"blob": sha256, "mime": "image/jpeg", "bytes": len(data), "width": SIZE[0], "height": SIZE[1]}
        self.write("photo", f"photo/{id}", {**body, "about": about, "round": self.round, "caption": caption})
        return id

    def finding(self, step: str | None, body: Mapping[str, Any]) -> str:
        """A finding from a step, or by hand when step is None; gives its slot."""
        slot = f"finding/at/{step}" if step else f"finding/{self.story.uuid()}"
        place = step.rpartition("/")[2] if step else None
        whole = {"about": step, "place": place, "complaints": [], "photos": [], "proposed": None, "note": "", **body}
        self.write("finding", slot, whole)
        return slot

    def accept(self, book: Book, step: str, because: str, **more: object) -> str:
        """The finding that a limit or an option of the step's check proposes, in its words; gives its slot.

        Raises KeyError when the check has no limit or option of that id.
        """
        grade, title, plain = _proposed(book, step, because)
        proposed = {"grade": grade, "title": title, "limit": because}
        return self.finding(step, {"grade": grade, "title": title, "plain": plain, "proposed": proposed, **more})

    def decline(self, step: str, words: str) -> None:
        """Say why what a limit or an option proposes is not a finding of its own."""
        self.write("finding-declined", f"finding/at/{step}", {"words": words})

    def work(self, findings: list[str], words: str, **more: object) -> None:
        """Work done on findings; more: parts, torque, improvised."""
        whole = {"findings": findings, "words": words, "parts": [], "torque": "", "improvised": "", **more}
        self.write("work-done", f"work/{self.story.uuid()}", whole)

    def outcome(self, complaint: str, outcome: str, findings: list[str], words: str = "") -> None:
        """What came of a complaint."""
        body = {"outcome": outcome, "findings": findings, "words": words}
        self.write("complaint-outcome", f"card/complaint/{complaint}/outcome", body)

    def agreed(self, finding: str, answer: str, by: str, how: str = "by phone") -> None:
        """The customer's answer about a finding."""
        self.write("agreed", f"agreed/{finding}", {"answer": answer, "by": by, "how": how})

    def hand_in(self, words: str) -> None:
        """Ready for the desk."""
        self.write("handed-in", "stage", {"words": words})


def _proposed(book: Book, step: str, because: str) -> tuple[str, str, str]:
    checklist_id, check_id, _ = step.split("/")
    checklist = book.checklist(checklist_id)
    check = checklist.check(check_id) if checklist else None
    if check is None:
        raise KeyError(f"The book has no check for {step!r}")
    rules: list[Limit | Option] = [*check.limits]
    if isinstance(check.answer, ChoiceAnswer):
        rules += check.answer.options
    for rule in rules:
        if rule.id == because and rule.grade and rule.title and rule.plain:
            return rule.grade, rule.title, rule.plain
    raise KeyError(f"{step!r} has no limit or option {because!r} that is beyond")
