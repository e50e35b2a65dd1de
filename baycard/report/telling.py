"""What every part of the report needs at hand while it is put into words."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from baycard.checklists.types import Book
from baycard.journal.entry import Entry
from baycard.journal.types import CardState
from baycard.measure.units import Units
from baycard.report.numbers import Voice
from baycard.report.shapes import PhotoView
from baycard.report.words import Words

PhotoSource = Callable[[str], str | None]
"""SHA-256 of a photo -> the address the page names it by, or None when the photo has not arrived."""


@dataclass(frozen=True, slots=True)
class Telling:
    """One card, the book its checklists are in, the names of people, the language and where photos come from."""

    state: CardState
    book: Book
    names: Mapping[str, str]
    words: Words
    photo_source: PhotoSource
    units: Units

    @property
    def voice(self) -> Voice:
        """How numbers are said."""
        return Voice(self.words, self.units)

    def name(self, person: str) -> str:
        """The person's name; a person nobody knows any more is said so."""
        return self.names.get(person) or self.words.say("a person no longer listed")

    def recorded(self, entry: Entry) -> str:
        """Who wrote an entry and on which day."""
        return f"{self.name(entry.author)}, {self.words.date(entry.made_at)}"

    def when(self, round: int) -> str:
        """The round in words."""
        if round == 1:
            return self.words.say("As found")
        return self.words.say("After work") if round == 2 else self.words.say("After work, round %(n)s", n=round)

    def place(self, id: str) -> str:
        """The place's title, or nothing for the vehicle as a whole."""
        place = self.book.places.get(id)
        return place.title if place else ""

    def grade(self, grade: str) -> str:
        """The grade as the customer reads it."""
        return {
            "advice": self.words.say("Advice, not a defect today"),
            "minor": self.words.say("Minor"),
            "major": self.words.say("Major"),
            "dangerous": self.words.say("Dangerous"),
        }[grade]

    def graded(self, grade: str) -> str:
        """The grade inside a sentence."""
        return grade_in_text(grade, self.words)

    def photo(self, entry: Entry, shows: str) -> PhotoView:
        """A photo entry; `shows` says what it is about for those who cannot see it."""
        caption = str(entry.body["caption"])
        alt = self.words.say("Photo: %(what)s", what=caption or shows)
        return PhotoView(self.photo_source(str(entry.body["blob"])), alt, caption or shows)


def grade_in_text(grade: str, words: Words) -> str:
    """The grade inside a sentence; a text of its own, as not every language writes it small there."""
    return {
        "advice": words.say("advice, not a defect today"),
        "minor": words.say("minor"),
        "major": words.say("major"),
        "dangerous": words.say("dangerous"),
    }[grade]
