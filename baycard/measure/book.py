"""The parts of the book that measure reads (docs/formats.md section 2); any object with these attributes will do."""

from collections.abc import Mapping, Sequence
from typing import NotRequired, Protocol, TypedDict

Tree = Sequence[object]
"""A formula as a nested JSON array: its operation, then numbers, names or further trees."""


class Atom(TypedDict):
    """One unit: value in base units = factor * value + offset; dim holds exponents of m, kg, s, A, K, mol, cd, rad."""

    factor: float
    offset: NotRequired[float]
    dim: Sequence[int]
    says: str
    metric: bool


class UnitTable(TypedDict):
    """Every unit atom and metric prefix by its UCUM code, as in the book's JSON."""

    atoms: Mapping[str, Atom]
    prefixes: Mapping[str, float]


class Instrument(Protocol):
    """A gauge: smallest step shown and greatest error its maker allows, both in `unit`."""

    @property
    def unit(self) -> str: ...  # noqa: D102
    @property
    def resolution(self) -> float: ...  # noqa: D102
    @property
    def limit_of_error(self) -> float | None: ...  # noqa: D102


class MethodInput(Protocol):
    """What a method asks for; range and default are in `unit`. text: words; list: several values."""

    @property
    def unit(self) -> str: ...  # noqa: D102
    @property
    def range(self) -> Sequence[float] | None: ...  # noqa: D102
    @property
    def default(self) -> float | None: ...  # noqa: D102
    @property
    def list(self) -> bool | None: ...  # noqa: D102
    @property
    def text(self) -> bool | None: ...  # noqa: D102


class MethodOutput(Protocol):
    """What a method gives. A unit in braces that names a text input means: the unit that this input holds."""

    @property
    def unit(self) -> str: ...  # noqa: D102


class Method(Protocol):
    """One calculation: a formula tree in the inputs' declared units, or the name of a function."""

    @property
    def id(self) -> str: ...  # noqa: D102
    @property
    def inputs(self) -> Mapping[str, MethodInput]: ...  # noqa: D102
    @property
    def output(self) -> MethodOutput: ...  # noqa: D102
    @property
    def tree(self) -> Tree | None: ...  # noqa: D102
    @property
    def function(self) -> str | None: ...  # noqa: D102
