"""Where the YAML files differ from the book: units, methods with formulas, a checklist without its hash."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from baycard.checklists.types import LEFT_OUT, Amount, MethodInput, MethodOutput, WorkedExample


@dataclass(frozen=True, slots=True)
class AtomRow:
    """A unit: base = factor * value + offset, as exact fractions in text; dim holds exponents by base unit."""

    code: str
    factor: str
    dim: Mapping[str, int]
    metric: bool
    says: str
    source: str
    offset: str = "0"


@dataclass(frozen=True, slots=True)
class PrefixRow:
    """A metric prefix."""

    code: str
    factor: str
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class MethodRow:
    """A method: a formula with named intermediate results and constant lists, or a registered function."""

    id: str
    says: str
    inputs: Mapping[str, MethodInput]
    output: MethodOutput
    source: str
    basis: str
    validity: str
    cautions: tuple[str, ...] = ()
    formula: str | None = None
    where: Mapping[str, Any] | None = None
    tables: Mapping[str, tuple[float, ...]] | None = None
    function: str | None = None
    examples: tuple[WorkedExample, ...] = ()


@dataclass(frozen=True, slots=True)
class ExampleRow:
    """A worked example of examples/*.json; its topic, note and where it was seen stay in the file."""

    id: str
    method: str
    inputs: Mapping[str, Amount]
    expected: Amount
    rtol: float
    source: str
    basis: str
    atol: float | None = field(default=None, metadata=LEFT_OUT)
    topic: str | None = None
    note: str | None = None
    seen: str | None = None


@dataclass(frozen=True, slots=True)
class ChecklistRow:
    """A checklist as written; its checks are read one by one, so that a fault in one hides none in another."""

    id: str
    version: int
    title: str
    why: str
    not_instead_of: str
    stations: tuple[str, ...]
    checks: Any
    cautions: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
