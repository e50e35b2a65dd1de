"""What the templates read: every text ready to print, every choice already made."""

from dataclasses import dataclass
from typing import Literal

Mark = Literal[
    "dangerous", "major", "minor", "advice", "in-order", "recorded", "too-close", "not-checked", "disagreement", "open"
]
Status = Literal["to-do", "done", "done-not-rechecked", "still-beyond"]
"""Of a finding: nothing done yet; work done and, where a check belongs to it, rechecked in order; work done but the
check not repeated; work done and the check still beyond its limit."""


@dataclass(frozen=True, slots=True)
class PhotoView:
    """One photo: where the renderer finds it (None: not arrived), and what it shows in words."""

    source: str | None
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class ReadingView:
    """One check at one place in one round, in words: what was found, what it is held against, who wrote it."""

    slot: str
    ask: str
    place: str
    round: int
    when: str
    mark: Mark
    state: str
    value: str
    limit: str
    source: str
    recorded: str
    note: str
    others: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RoundView:
    """As found, or after work: the reading and the photos of that round."""

    when: str
    reading: ReadingView | None
    photos: tuple[PhotoView, ...]


@dataclass(frozen=True, slots=True)
class WorkView:
    """One piece of work: what was done, parts with their count and state, torque, what was improvised."""

    words: str
    parts: tuple[str, ...]
    torque: str
    improvised: str
    recorded: str


@dataclass(frozen=True, slots=True)
class FindingView:
    """One finding with everything that rests on it and came of it."""

    slot: str
    number: int
    mark: Mark
    grade: str
    title: str
    plain: str
    place: str
    status: Status
    status_words: str
    rounds: tuple[RoundView, ...]
    agreed: str
    work: tuple[WorkView, ...]
    complaints: tuple[str, ...]
    note: str
    proposed: str
    others: tuple[str, ...]
    recorded: str

    @property
    def settled(self) -> bool:
        """Whether work was done and no check contradicts it."""
        return self.status in ("done", "done-not-rechecked")


@dataclass(frozen=True, slots=True)
class ComplaintView:
    """What the customer said and what came of it."""

    words: str
    outcome: str
    detail: str
    findings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StationView:
    """The readings of one station of one checklist."""

    title: str
    readings: tuple[ReadingView, ...]


@dataclass(frozen=True, slots=True)
class ChecklistView:
    """One checklist of the card with all its readings in walking order."""

    title: str
    why: str
    version: str
    not_instead_of: str
    stations: tuple[StationView, ...]


@dataclass(frozen=True, slots=True)
class CautionView:
    """A caution as the book words it, with its source."""

    title: str
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class Vehicle:
    """What vehicle it is, in words; an unknown field is empty."""

    name: str
    plate: str
    odometer: str
    vin: str
    facts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Drive:
    """May I drive it: the answer as one phrase, the restrictions, the signer's words, when to look again."""

    answer: str
    meaning: str
    restrictions: str
    words: str
    look_again: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What is different since the revision before; all empty in a first revision."""

    since: str
    rechecked: tuple[tuple[ReadingView, ReadingView], ...]
    new_findings: tuple[str, ...]
    dropped_findings: tuple[str, ...]
    work: tuple[WorkView, ...]
    improvised: tuple[str, ...]
    still_beyond: tuple[str, ...]
    left: tuple[str, ...]
    other_entries: int


@dataclass(frozen=True, slots=True)
class OpenPoints:
    """What is not known or not decided. unanswered: one line per checklist; declined: question and reason."""

    not_checked: tuple[ReadingView, ...]
    unanswered: tuple[ReadingView, ...]
    questions_left: int
    disagreements: tuple[ReadingView, ...]
    undecided: tuple[ReadingView, ...]
    too_close: tuple[ReadingView, ...]
    declined: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class MissedPoint:
    """One check that was not made, or all of a checklist that nobody answered: what, where, and why."""

    what: str
    where: str
    why: str


@dataclass(frozen=True, slots=True)
class Missed:
    """What was not checked, in short. counts: the sentences of `Page.rests_on` that say the same."""

    said: str
    first: tuple[MissedPoint, ...]
    more: str
    counts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotArrived:
    """Photos and sounds that had not arrived when the card was signed: how many, what of, and why it was signed."""

    said: str
    what: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Page:
    """The whole report."""

    language: str
    workshop: str
    title: str
    revision: int
    signed: str
    signed_by: str
    signed_on: str
    foot: str
    vehicle: Vehicle
    drive: Drive
    must: tuple[FindingView, ...]
    can_wait: tuple[FindingView, ...]
    nothing_to_do: str
    done: tuple[FindingView, ...]
    complaints: tuple[ComplaintView, ...]
    rests_on: tuple[str, ...]
    changes: Changes | None
    findings: tuple[FindingView, ...]
    points: OpenPoints
    missed: Missed | None
    not_arrived: NotArrived | None
    checklists: tuple[ChecklistView, ...]
    other_photos: tuple[PhotoView, ...]
    cautions: tuple[CautionView, ...]
    sources: tuple[str, ...]
    card: str
    fingerprint: str

    @property
    def rests_on_in_short(self) -> tuple[str, ...]:
        """What it rests on, for a mail: without what `missed` says, and without what points to further pages."""
        told = self.missed.counts if self.missed else ()
        return tuple(line for line in self.rests_on[:-1] if line not in told)
