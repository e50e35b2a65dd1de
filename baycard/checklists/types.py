"""The book as frozen values: the same names as the phone's measure/book.ts, the shapes of docs/formats.md section 2.

A field marked LEFT_OUT has no key in the JSON while it is None; every other None is a JSON null.
A field whose name is a Python word ends in an underscore here and not in the JSON (`is_`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from baycard.measure.book import UnitTable

Grade = Literal["advice", "minor", "major", "dangerous"]
Basis = Literal["published", "maker's data", "common practice", "from memory"]
Means = Literal["in-order", "beyond", "recorded"]
LimitOf = Literal["value", "min", "max", "range", "side-difference"]
JsonValue = Any
"""Whatever a JSON document may hold."""
Tree = list[JsonValue]
"""A formula as nested JSON arrays: ["add", ["in", "a"], ["num", 1]]."""


LEFT_OUT = {"left_out": True}
"""Metadata of a field that is None by default and then has no key in the JSON."""


@dataclass(frozen=True, slots=True)
class Instrument:
    """A measuring tool: smallest step shown and, where known, the greatest error its maker allows, both in `unit`."""

    id: str
    title: str
    unit: str
    resolution: float
    quantity: str
    source: str
    limit_of_error: float | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning shown before the checks that need it and on the report."""

    id: str
    level: Literal["danger", "warning", "caution", "notice"]
    title: str
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class Station:
    """A stop of the walk round the vehicle, with the height of the lift there."""

    id: str
    title: str
    lift: Literal["down", "half", "full"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where on the vehicle a check is done; `pair` is the same place on the other side."""

    id: str
    title: str
    station: str
    side: Literal["left", "right"] | None = None
    pair: str | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A value with its unit, in worked examples: a number, a list of numbers, a boolean or a text."""

    value: JsonValue
    unit: str


@dataclass(frozen=True, slots=True)
class MethodInput:
    """What a method asks for, in `unit`; `range` are the bounds inside which the method is valid."""

    unit: str
    says: str
    range: tuple[float, float] | None = field(default=None, metadata=LEFT_OUT)
    default: float | None = field(default=None, metadata=LEFT_OUT)
    list: bool | None = field(default=None, metadata=LEFT_OUT)
    text: bool | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class MethodOutput:
    """Unit and meaning of a method's answer."""

    unit: str
    says: str


@dataclass(frozen=True, slots=True)
class WorkedExample:
    """A published or closed-form result which both evaluators must reproduce within `rtol`, or `atol` about zero."""

    id: str
    inputs: Mapping[str, Amount]
    expected: Amount
    rtol: float
    source: str
    basis: str
    atol: float | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class Method:
    """One calculation: a formula tree, or the name of a function registered in measure.functions."""

    id: str
    says: str
    inputs: Mapping[str, MethodInput]
    output: MethodOutput
    tree: Tree | None
    function: str | None
    source: str
    basis: str
    validity: str
    cautions: tuple[str, ...]
    examples: tuple[WorkedExample, ...]


@dataclass(frozen=True, slots=True)
class Option:
    """One choice of a choice check; with `means` beyond it carries the grade and words of the finding."""

    id: str
    label: str
    means: Means
    grade: Grade | None = field(default=None, metadata=LEFT_OUT)
    title: str | None = field(default=None, metadata=LEFT_OUT)
    plain: str | None = field(default=None, metadata=LEFT_OUT)
    source: str | None = field(default=None, metadata=LEFT_OUT)
    basis: Basis | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class CheckSource:
    """An input taken from the answer of another check."""

    check: str
    take: str
    at: str | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class FixedSource:
    """An input that is a fixed amount."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class FactSource:
    """An input taken from a fact of the card; `fact` is its slot."""

    fact: str


@dataclass(frozen=True, slots=True)
class MakerSource:
    """An input that is the maker's figure for this vehicle, asked for once."""

    maker: str
    ask: str
    unit: str


Source = CheckSource | FixedSource | FactSource | MakerSource


@dataclass(frozen=True, slots=True)
class ChoiceAnswer:
    """One of a set of options."""

    options: tuple[Option, ...]
    kind: Literal["choice"] = "choice"


@dataclass(frozen=True, slots=True)
class NumberAnswer:
    """One reading."""

    unit: str
    decimals: int
    range: tuple[float, float]
    instruments: tuple[str, ...] = ()
    kind: Literal["number"] = "number"


@dataclass(frozen=True, slots=True)
class SpreadPoint:
    """One point of a spread."""

    id: str
    label: str


@dataclass(frozen=True, slots=True)
class SpreadAnswer:
    """A set of readings at named points, such as tread inner, middle, outer."""

    unit: str
    decimals: int
    range: tuple[float, float]
    points: tuple[SpreadPoint, ...]
    instruments: tuple[str, ...] = ()
    kind: Literal["spread"] = "spread"


@dataclass(frozen=True, slots=True)
class RunAnswer:
    """Timed readings; `every_s` is the step between them, `seconds` the whole run."""

    unit: str
    decimals: int
    range: tuple[float, float]
    every_s: float | None
    seconds: float
    shape: Literal["gauge", "count", "countdown"]
    instruments: tuple[str, ...] = ()
    kind: Literal["run"] = "run"


@dataclass(frozen=True, slots=True)
class CodesAnswer:
    """A list of trouble codes."""

    kind: Literal["codes"] = "codes"


@dataclass(frozen=True, slots=True)
class PhotoAnswer:
    """At least `least` photos."""

    least: int
    kind: Literal["photo"] = "photo"


@dataclass(frozen=True, slots=True)
class SoundAnswer:
    """A recording of so many seconds."""

    seconds: float
    kind: Literal["sound"] = "sound"


@dataclass(frozen=True, slots=True)
class TextAnswer:
    """Words."""

    kind: Literal["text"] = "text"


@dataclass(frozen=True, slots=True)
class WorkedOutAnswer:
    """The answer of a method over other answers, facts and figures."""

    method: str
    unit: str
    decimals: int
    inputs: Mapping[str, Source]
    kind: Literal["worked-out"] = "worked-out"


AnswerSpec = (
    ChoiceAnswer
    | NumberAnswer
    | SpreadAnswer
    | RunAnswer
    | CodesAnswer
    | PhotoAnswer
    | SoundAnswer
    | TextAnswer
    | WorkedOutAnswer
)


@dataclass(frozen=True, slots=True)
class MakerFigure:
    """A limit's number that only the maker can give: the key it is kept under, the question, the side it bounds."""

    key: str
    ask: str
    is_: Literal["above", "below"]


@dataclass(frozen=True, slots=True)
class Limit:
    """A bound on a reading, with the finding it proposes when crossed and the source it rests on."""

    id: str
    of: LimitOf
    unit: str
    grade: Grade
    title: str
    plain: str
    source: str
    basis: Basis
    applies: str
    above: float | None = field(default=None, metadata=LEFT_OUT)
    below: float | None = field(default=None, metadata=LEFT_OUT)
    maker: MakerFigure | None = field(default=None, metadata=LEFT_OUT)


@dataclass(frozen=True, slots=True)
class OnlyIf:
    """A check is asked only when an earlier choice check was answered with one of these options."""

    check: str
    is_: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """One question of a checklist, asked at each of its places."""

    id: str
    ask: str
    how: tuple[str, ...]
    plain: str
    at: tuple[str, ...]
    answer: AnswerSpec
    limits: tuple[Limit, ...] = ()
    cautions: tuple[str, ...] = ()
    photo: Literal["required", "wanted"] | None = None
    if_failed: str | None = None
    only_if: OnlyIf | None = None


@dataclass(frozen=True, slots=True)
class Checklist:
    """A versioned list of checks; `sha256` is over its canonical JSON without that key."""

    id: str
    version: int
    sha256: str
    title: str
    why: str
    not_instead_of: str
    cautions: tuple[str, ...]
    tools: tuple[str, ...]
    stations: tuple[str, ...]
    checks: tuple[Check, ...]

    def check(self, id: str) -> Check | None:
        """The check of this id, or None."""
        return next((check for check in self.checks if check.id == id), None)


@dataclass(frozen=True, slots=True)
class Book:
    """All trade knowledge, as the phone carries it."""

    format: int
    sha256: str
    units: UnitTable
    instruments: Mapping[str, Instrument]
    cautions: Mapping[str, Caution]
    stations: tuple[Station, ...]
    places: Mapping[str, Place]
    methods: Mapping[str, Method]
    checklists: tuple[Checklist, ...]

    def checklist(self, id: str, version: int | None = None) -> Checklist | None:
        """The checklist of this id, in the given version or the highest there is; None when the book has none."""
        found = [one for one in self.checklists if one.id == id and version in (None, one.version)]
        return max(found, key=lambda one: one.version, default=None)
