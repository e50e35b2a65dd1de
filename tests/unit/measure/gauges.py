"""Instruments and methods as plain values, for the tests of this room."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Gauge:
    """An instrument as measure reads it."""

    resolution: float
    limit_of_error: float | None = None
    unit: str = "mm"


@dataclass(frozen=True)
class Asked:
    """An input of a method."""

    unit: str = "1"
    range: tuple[float, float] | None = None
    default: float | None = None
    list: bool | None = None
    text: bool | None = None


@dataclass(frozen=True)
class Given:
    """The output of a method."""

    unit: str = "1"


@dataclass(frozen=True)
class Recipe:
    """A method."""

    inputs: Mapping[str, Asked]
    tree: list[Any] | None = None
    function: str | None = None
    output: Given = field(default_factory=Given)
    id: str = "recipe"
