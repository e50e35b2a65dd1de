"""Answers that are worked out from other answers, facts and figures."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from baycard.checklists.types import (
    Check,
    CheckSource,
    FactSource,
    MakerSource,
    Source,
    WorkedOutAnswer,
)
from baycard.journal.entry import Body
from baycard.journal.reading import Reading, in_unit, is_numeric, joint, reading_of, values_of
from baycard.journal.records import Records, Worked, answer_up_to, fact_in, position_of
from baycard.journal.slots import check_slot
from baycard.measure.errors import MeasureError
from baycard.measure.methods import Quantity, work

NOTHING = Worked()


@dataclass(frozen=True, slots=True)
class Given:
    """An input with the round it was read in; 0 for figures of no round. A difference has no zero point."""

    quantity: Quantity
    round: int
    is_difference: bool = False


@dataclass(frozen=True, slots=True)
class Lacking:
    """An input that is not there: its slot, or words of what is wrong."""

    lacks: tuple[str, ...]


Input = Given | Lacking


def worked_out(check: Check, position: str, round: int, records: Records) -> Worked:
    """The answer of a worked-out check at a position, from the highest round up to `round` of each input."""
    if not isinstance(check.answer, WorkedOutAnswer):
        return NOTHING
    slot = check_slot(records.checklist.id, check.id, position, round)
    if slot not in records.worked:
        records.worked[slot] = NOTHING  # an answer that needs itself finds nothing
        records.worked[slot] = _work_out(check.answer, position, round, records)
    return records.worked[slot]


def _work_out(spec: WorkedOutAnswer, position: str, round: int, records: Records) -> Worked:
    inputs = {name: _input(source, position, round, records) for name, source in spec.inputs.items()}
    given = {name: one for name, one in inputs.items() if isinstance(one, Given)}
    newest = max((one.round for one in given.values()), default=0)
    lacks = [lack for one in inputs.values() if isinstance(one, Lacking) for lack in one.lacks]
    if lacks:
        return Worked(None, tuple(dict.fromkeys(lacks)), newest)
    return replace(_result(spec, given, records), newest=newest)


def _result(spec: WorkedOutAnswer, given: Mapping[str, Given], records: Records) -> Worked:
    method = records.book.methods.get(spec.method)
    if method is None:
        return Worked(lacks=(f"the method {spec.method}",))
    try:
        inputs = {name: _as_asked(one, method.inputs[name].unit, records) for name, one in given.items()}
        found = work(method, inputs, records.units)
        if isinstance(found.value, bool) or not isinstance(found.value, int | float):
            return NOTHING
        return Worked(in_unit(Reading(found.value, found.u, found.unit), spec.unit, records.units))
    except MeasureError as error:
        return Worked(lacks=(error.detail,))


def _as_asked(given: Given, unit: str, records: Records) -> Quantity:
    """The quantity to hand in. A method converts as from a scale, so a difference is brought into its unit before."""
    quantity = given.quantity
    if not given.is_difference or not isinstance(quantity.value, int | float):
        return quantity
    there = in_unit(Reading(quantity.value, quantity.u, quantity.unit), unit, records.units, difference=True)
    return _as_quantity(there)


def _input(source: Source, position: str, round: int, records: Records) -> Input:
    if isinstance(source, CheckSource):
        return _from_check(source, position, round, records)
    if isinstance(source, FactSource):
        return _from_fact(fact_in(records.standing, source.fact), source.fact, "1")
    if isinstance(source, MakerSource):
        slot = f"vehicle/maker/{source.maker}"
        return _from_fact(fact_in(records.standing, slot), slot, source.unit)
    return Given(Quantity(source.value, source.unit), 0)


def _from_fact(fact: Body | None, slot: str, unit: str) -> Input:
    if fact is None:
        return Lacking((slot,))
    return Given(Quantity(fact["value"], fact.get("unit", unit)), 0)


def _from_check(source: CheckSource, position: str, round: int, records: Records) -> Input:
    check = records.checks.get(source.check)
    if check is None:
        return Lacking((source.check,))
    at = source.at or position_of(check, position)
    if source.take.startswith("minus:"):
        return _minus(check, source.take.removeprefix("minus:"), at, round, records)
    if isinstance(check.answer, WorkedOutAnswer):
        return _from_worked(check, at, round, records)
    found = answer_up_to(records, check.id, at, round)
    quantity = _quantity(found.answer, source.take, records) if found else None
    if found is None or quantity is None:
        return Lacking((check_slot(records.checklist.id, check.id, at, round),))
    return Given(quantity, found.round, is_difference=source.take == "range")


def _from_worked(check: Check, at: str, round: int, records: Records) -> Input:
    found = worked_out(check, at, round, records)
    if found.reading is None:
        return Lacking(found.lacks or (check_slot(records.checklist.id, check.id, at, round),))
    return Given(_as_quantity(found.reading), found.newest)


def _minus(check: Check, less: str, at: str, round: int, records: Records) -> Input:
    """The value of one check less that of another, at the same position."""
    given = _from_check(CheckSource(check.id, "value", at), at, round, records)
    by = _from_check(CheckSource(less, "value"), at, round, records)
    if isinstance(given, Given) and isinstance(by, Given):
        return _difference(given, by, records)
    return Lacking(tuple(lack for one in (given, by) if isinstance(one, Lacking) for lack in one.lacks))


def _difference(given: Given, by: Given, records: Records) -> Input:
    a, b = given.quantity, by.quantity
    if (
        isinstance(a.value, int | float)
        and isinstance(b.value, int | float)
        and records.units.compatible(a.unit, b.unit)
    ):
        there = in_unit(Reading(b.value, b.u, b.unit), a.unit, records.units)
        left = Reading(a.value - there.value, joint(a.u, there.u), a.unit)
        return Given(_as_quantity(left), max(given.round, by.round), is_difference=True)
    return Lacking((f"a difference of {a.unit} and {b.unit}",))


def _quantity(answer: Body, take: str, records: Records) -> Quantity | None:
    if answer["is"] == "choice":
        return Quantity(answer["choice"], "1") if take == "choice" else None
    if not is_numeric(answer):
        return None
    if take in ("times", "seconds"):
        return _time(answer, take)
    if take == "samples":
        return Quantity(values_of(answer), answer["unit"])
    reading = reading_of(answer, take, records.book.instruments, records.units)
    return _as_quantity(reading) if reading else None


def _time(answer: Body, take: str) -> Quantity | None:
    times = [seconds for seconds, _ in answer.get("samples", ())]
    if take == "times":
        return Quantity(times, "s")
    return Quantity(times[-1] - times[0], "s") if times else None


def _as_quantity(reading: Reading) -> Quantity:
    return Quantity(reading.value, reading.unit, reading.u)
