"""Numbers out of an answer, with their standard uncertainty."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from baycard.checklists.types import Instrument
from baycard.journal.entry import Body
from baycard.measure.uncertainty import reading_uncertainty
from baycard.measure.units import Units

NUMERIC = frozenset({"number", "spread", "run"})


@dataclass(frozen=True, slots=True)
class Reading:
    """A number with its unit; `u` is its standard uncertainty, None when no instrument was named."""

    value: float
    u: float | None
    unit: str


def is_numeric(answer: Body | None) -> bool:
    """Whether an answer holds numbers."""
    return answer is not None and answer["is"] in NUMERIC


def values_of(answer: Body) -> list[float]:
    """All readings of a numeric answer: the repeats of a number, the points of a spread, the samples of a run."""
    match answer["is"]:
        case "number":
            return list(answer.get("repeats") or [answer["value"]])
        case "spread":
            return list(answer["values"].values())
    return [value for _, value in answer["samples"]]


def taken(answer: Body, take: str) -> float | None:
    """One number taken from a numeric answer, in the answer's unit, or None when it has none of that name.

    take: value (of a run: its last reading), first, last, min, max, mean, range, or point:<id> of a spread.
    """
    values = values_of(answer)
    if take == "value":
        return _value(answer, values)
    if take.startswith("point:"):
        point: float | None = answer.get("values", {}).get(take.removeprefix("point:"))
        return point
    return OF_MANY[take](values) if take in OF_MANY else None


def _value(answer: Body, values: Sequence[float]) -> float | None:
    if answer["is"] == "spread":
        return None
    value: float = answer["value"] if answer["is"] == "number" else values[-1]
    return value


OF_MANY: Mapping[str, Callable[[Sequence[float]], float]] = {
    "first": lambda values: values[0],
    "last": lambda values: values[-1],
    "min": min,
    "max": max,
    "mean": lambda values: sum(values) / len(values),
    "range": lambda values: max(values) - min(values),
}


def reading_of(answer: Body, take: str, instruments: Mapping[str, Instrument], units: Units) -> Reading | None:
    """`taken` as a Reading. Only a number's value and mean gain from repeats; a range is a difference of two readings.

    Source of the uncertainty: JCGM 100:2008, 4.2, 4.3 and 5.1.2.
    """
    value = taken(answer, take)
    if value is None:
        return None
    averaged = answer["is"] == "number" and take in ("value", "mean")
    u = _uncertainty(answer, values_of(answer) if averaged else [value], instruments, units)
    return Reading(value, u * math.sqrt(2) if take == "range" and u is not None else u, answer["unit"])


def _uncertainty(
    answer: Body, values: Sequence[float], instruments: Mapping[str, Instrument], units: Units
) -> float | None:
    instrument = instruments.get(answer.get("instrument", ""))
    unit = answer["unit"]
    if instrument is None or not units.compatible(unit, instrument.unit):
        return None
    in_its_unit = [units.convert(value, unit, instrument.unit) for value in values]
    return units.convert_difference(reading_uncertainty(in_its_unit, instrument), instrument.unit, unit)


def in_unit(reading: Reading, unit: str, units: Units, *, difference: bool = False) -> Reading:
    """A reading in another unit; `difference` for spreads and differences, which have no zero point."""
    convert = units.convert_difference if difference else units.convert
    u = None if reading.u is None else units.convert_difference(reading.u, reading.unit, unit)
    return Reading(convert(reading.value, reading.unit, unit), u, unit)


def joint(a: float | None, b: float | None) -> float | None:
    """The standard uncertainty of a difference of two readings; None when neither is known."""
    return None if a is None and b is None else math.hypot(a or 0.0, b or 0.0)
