"""What the folder has been found to define, for the checks of everything that names it."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from baycard.checklists.problems import Spot, nearest
from baycard.checklists.types import Caution, Instrument, Method, Place, Station
from baycard.measure.errors import MeasureError
from baycard.measure.units import Units

SEGMENT = re.compile(r"[a-z0-9][a-z0-9.-]*")


@dataclass(frozen=True, slots=True)
class Known:
    """Everything a method or checklist may name. `*_ids` also hold what is defined but broken, to report it once."""

    units: Units
    functions: frozenset[str]
    instruments: Mapping[str, Instrument]
    cautions: Mapping[str, Caution]
    stations: Mapping[str, Station]
    places: Mapping[str, Place]
    methods: dict[str, Method] = field(default_factory=dict)
    broken: set[tuple[str, str]] = field(default_factory=set)
    figures: dict[str, str] = field(default_factory=dict)
    """The maker's figures asked for so far: key -> unit. One key is one figure for all checklists of a vehicle."""

    def check_unit(self, code: str, spot: Spot) -> bool:
        """Whether the unit is known; reports when it is not."""
        try:
            self.units.read(code)
        except MeasureError as error:
            spot.report(error.detail, "units are UCUM codes of units.yaml")
            return False
        return True

    def check_same_quantity(self, code: str, other: str, whose: str, spot: Spot) -> None:
        """Reports when the unit is unknown or does not measure what the `other` one, that of `whose`, measures."""
        if self.check_unit(code, spot) and not self.units.compatible(code, other) and self.check_unit(other, spot):
            spot.report(f"unit {code} does not fit {whose}, which is in {other}", "use a unit of the same kind")

    def check_figure(self, key: str, unit: str, key_spot: Spot, unit_spot: Spot) -> None:
        """Reports a key of a maker's figure that no slot can hold, or that measures something else elsewhere."""
        check_segment("key", key, key_spot)
        other = self.figures.setdefault(key, unit)
        if unit != other:
            self.check_same_quantity(unit, other, f"the maker's figure {key} elsewhere", unit_spot)

    def check_name(self, what: str, name: str, known: Iterable[str], spot: Spot) -> bool:
        """Whether a name is known; reports when it is not, unless it is defined and broken."""
        names = set(known)
        if name in names:
            return True
        if (what, name) not in self.broken:
            spot.report(f"{what} {name} is not known", nearest(name, names))
        return False


def check_segment(what: str, name: str, spot: Spot) -> None:
    """Reports a name that cannot stand between the strokes of a slot."""
    if not SEGMENT.fullmatch(name):
        spot.report(f"{what} {name} cannot be part of a slot", "use small letters, digits, dots and hyphens")


def check_range(values: Iterable[float] | None, spot: Spot) -> None:
    """Reports a range whose ends are reversed or equal."""
    if values is not None:
        low, high = values
        if low >= high:
            spot.report(f"range runs from {low:g} to {high:g}", "write the smaller end first")
