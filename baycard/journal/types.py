"""The card computed from its entries: the same names as the phone's journal/types.ts, in the manner of Python."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from baycard.checklists.types import Check, Checklist, Grade, Limit, Place, Station
from baycard.journal.entry import Body, Entry
from baycard.journal.reading import Reading
from baycard.journal.standing import Standing

StepIs = Literal["open", "recorded", "in-order", "beyond", "too-close", "not-checked", "disagreement", "not-asked"]
StageIs = Literal["walking", "handed-in", "sent-back", "signed", "disagreement"]
LimitIs = Literal["in-order", "beyond", "too-close", "unknown"]


@dataclass(frozen=True, slots=True)
class Step:
    """A check at a position: what fills the screen. `checklist` is an id."""

    checklist: str
    check: Check
    place: Place
    station: Station


@dataclass(frozen=True, slots=True)
class LimitOutcome:
    """A limit held against a reading; `bound` is the nearer bound in the limit's unit, None while it is not known."""

    limit: Limit
    state: LimitIs
    bound: float | None


@dataclass(frozen=True, slots=True)
class Settling:
    """What would settle a reading too close to call: readings in all, or a finer instrument's id."""

    repeats: int | None = None
    instrument: str | None = None


@dataclass(frozen=True, slots=True)
class StepOutcome:
    """What is known of one step in one round.

    value: the judged number in `unit`, with its standard uncertainty u; own: the step's own number, another one where
    the judged one is a difference of two sides or of readings. lacks: what a worked-out answer still needs.
    grade, title, plain, because (limit or option id): set when beyond or too close, of the worst limit or option.
    """

    slot: str
    state: StepIs = "open"
    standing: tuple[Entry, ...] = ()
    value: float | None = None
    u: float | None = None
    unit: str | None = None
    own: Reading | None = None
    lacks: tuple[str, ...] = ()
    limits: tuple[LimitOutcome, ...] = ()
    grade: Grade | None = None
    title: str | None = None
    plain: str | None = None
    because: str | None = None
    settle: Settling | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """A standing finding; `standing` holds more than one entry when two people wrote it apart."""

    slot: str
    entry: Entry
    standing: tuple[Entry, ...]
    agreed: Entry | None
    work: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Proposal:
    """A finding that a limit or an option proposes and nobody has accepted or declined yet."""

    slot: str
    step: Step
    round: int
    outcome: StepOutcome


@dataclass(frozen=True, slots=True)
class StepState:
    """A step with its rounds; rounds[0] is as found."""

    step: Step
    rounds: tuple[StepOutcome, ...]


@dataclass(frozen=True, slots=True)
class ChecklistState:
    """A chosen checklist with its steps in walking order.

    open and done count the steps that a person answers, as found; a disagreement is still open.
    """

    checklist: Checklist
    steps: tuple[StepState, ...]
    open: int
    done: int


@dataclass(frozen=True, slots=True)
class ComplaintState:
    """A complaint in the customer's words, what came of it, and the slots of the findings tied to it."""

    id: str
    words: str
    entry: Entry
    outcome: Entry | None
    findings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stage:
    """How far the card has come. `entry` is None while walking and in a disagreement."""

    is_: StageIs
    entry: Entry | None = None
    changed_since: bool = False
    standing: tuple[Entry, ...] = ()


@dataclass(frozen=True, slots=True)
class NotChecked:
    """A step that could not be checked in a round, with the entry that says why."""

    step: Step
    round: int
    entry: Entry


@dataclass(frozen=True, slots=True)
class MissingChecklist:
    """A chosen checklist whose version is not held here."""

    id: str
    version: int


@dataclass(frozen=True, slots=True)
class CardState:
    """Everything computed from the standing entries of one card. findings: worst first; the rest oldest first.

    disagreements: slots with two or more standing entries. round: the one new answers belong to.
    """

    card: str
    entries: tuple[Entry, ...]
    standing: Standing = field(hash=False)
    facts: Mapping[str, Body] = field(hash=False)
    complaints: tuple[ComplaintState, ...]
    checklists: tuple[ChecklistState, ...]
    findings: tuple[Finding, ...]
    proposals: tuple[Proposal, ...]
    declined: tuple[Entry, ...]
    not_checked: tuple[NotChecked, ...]
    photos: tuple[Entry, ...]
    sounds: tuple[Entry, ...]
    work: tuple[Entry, ...]
    stage: Stage
    disagreements: tuple[str, ...]
    missing_checklists: tuple[MissingChecklist, ...]
    round: int
