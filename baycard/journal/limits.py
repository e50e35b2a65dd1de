"""The limits of a check held against what was read, and which of them counts."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from baycard.checklists.types import Instrument, Limit, NumberAnswer, RunAnswer, SpreadAnswer, WorkedOutAnswer
from baycard.journal.entry import Body
from baycard.journal.grades import GRADE_RANK
from baycard.journal.reading import Reading, in_unit, is_numeric, joint, reading_of, taken, values_of
from baycard.journal.records import Records, answer_up_to, fact_in
from baycard.journal.types import LimitIs, LimitOutcome, Settling, Step
from baycard.journal.worked import worked_out
from baycard.measure.verdict import Bounds, settle, verdict

INSTRUMENTED = (NumberAnswer, RunAnswer, SpreadAnswer)


@dataclass(frozen=True, slots=True)
class Subject:
    """What a step's limits are held against: the answer's body, or the reading worked out."""

    step: Step
    round: int
    answer: Body | None = None
    worked: Reading | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """A limit's outcome with the reading it was judged on, in the reading's own unit."""

    outcome: LimitOutcome
    reading: Reading | None
    bounds: Bounds


def judge_limits(subject: Subject, records: Records) -> list[Judged]:
    """Every limit of the check, in the order of the book."""
    return [_judged(limit, subject, records) for limit in subject.step.check.limits]


def deciding(limits: Iterable[Judged]) -> Judged | None:
    """The limit that decides a step: the worst beyond, else the worst too close, else the worst in order; or None."""
    order: tuple[LimitIs, ...] = ("beyond", "too-close", "in-order")
    known = [one for one in limits if one.outcome.state in order]
    ranked = sorted(known, key=lambda one: (order.index(one.outcome.state), GRADE_RANK[one.outcome.limit.grade]))
    return ranked[0] if ranked else None


def _judged(limit: Limit, subject: Subject, records: Records) -> Judged:
    bounds = _bounds(limit, records)
    reading = _subject_reading(limit, subject, records)
    state: LimitIs = _state(limit, reading, bounds, records) if bounds and reading else "unknown"
    outcome = LimitOutcome(limit, state, _nearest(bounds, reading.value if reading else 0.0))
    return Judged(outcome, reading, bounds or Bounds())


def _state(limit: Limit, reading: Reading, bounds: Bounds, records: Records) -> LimitIs:
    if not records.units.compatible(reading.unit, limit.unit):
        return "unknown"
    there = in_unit(reading, limit.unit, records.units, difference=_is_difference(limit))
    state = verdict(there.value, there.u or 0.0, bounds)
    return "unknown" if state == "recorded" else state


def _bounds(limit: Limit, records: Records) -> Bounds | None:
    """The bounds in the limit's unit; None when they are the maker's and nobody has typed them yet."""
    if limit.maker is None:
        return Bounds(limit.above, limit.below)
    fact = fact_in(records.standing, f"vehicle/maker/{limit.maker.key}")
    if fact is None:
        return None
    unit = fact.get("unit", limit.unit)
    if not records.units.compatible(unit, limit.unit):
        return None
    figure = in_unit(Reading(fact["value"], None, unit), limit.unit, records.units, difference=_is_difference(limit))
    return Bounds(above=figure.value) if limit.maker.is_ == "above" else Bounds(below=figure.value)


def _nearest(bounds: Bounds | None, value: float) -> float | None:
    known = [bound for bound in (bounds.above, bounds.below) if bound is not None] if bounds else []
    return min(known, key=lambda bound: abs(value - bound), default=None)


def _is_difference(limit: Limit) -> bool:
    return limit.of in ("range", "side-difference")


def _subject_reading(limit: Limit, subject: Subject, records: Records) -> Reading | None:
    if limit.of == "side-difference":
        return _side_difference(subject, records)
    if subject.worked:
        return subject.worked if limit.of == "value" else None
    return _numeric_reading(subject.answer, limit.of, records)


def _numeric_reading(answer: Body | None, take: str, records: Records) -> Reading | None:
    if answer is None or not is_numeric(answer):
        return None
    return reading_of(answer, take, records.book.instruments, records.units)


def _side_difference(subject: Subject, records: Records) -> Reading | None:
    """How far a reading is from that on the other side, in its own unit; None until both sides are read."""
    step = subject.step
    own = subject.worked or _side_reading(subject.answer, records)
    if own is None or step.place.pair is None or step.place.pair not in step.check.at:
        return None
    other = _other_side(step, step.place.pair, subject.round, records)
    if other is None or not records.units.compatible(other.unit, own.unit):
        return None
    there = in_unit(other, own.unit, records.units)
    return Reading(abs(own.value - there.value), joint(own.u, there.u), own.unit)


def _other_side(step: Step, pair: str, round: int, records: Records) -> Reading | None:
    if isinstance(step.check.answer, WorkedOutAnswer):
        return worked_out(step.check, pair, round, records).reading
    found = answer_up_to(records, step.check.id, pair, round)
    return _side_reading(found.answer, records) if found else None


def _side_reading(answer: Body | None, records: Records) -> Reading | None:
    return _numeric_reading(answer, "mean" if answer and answer["is"] == "spread" else "value", records)


def settling(judged: Judged, subject: Subject, records: Records) -> Settling:
    """What would make a reading that is too close to its limit clear, as far as that can be told."""
    answer, spec, limit = subject.answer, subject.step.check.answer, judged.outcome.limit
    if answer is None or not isinstance(spec, INSTRUMENTED) or _is_difference(limit):
        return Settling()
    named = answer["instrument"]  # without one nothing is uncertain, so nothing is too close
    [used] = _in_limit_unit([named], limit, records)
    others = _in_limit_unit([id for id in spec.instruments if id != named], limit, records)
    values = [records.units.convert(value, answer["unit"], limit.unit) for value in _judged_values(answer, limit)]
    found = settle(values, used, judged.bounds, {other.id: other for other in others})
    return Settling(found.repeats, next(iter(found.instruments), None))


def _judged_values(answer: Body, limit: Limit) -> list[float]:
    if answer["is"] == "number":
        return values_of(answer)
    single = taken(answer, limit.of)
    return [] if single is None else [single]


def _in_limit_unit(ids: Sequence[str], limit: Limit, records: Records) -> list[Instrument]:
    """Those of the named instruments that are known and fit, with their figures in the limit's unit."""
    known = [records.book.instruments[id] for id in ids if id in records.book.instruments]
    fit = [one for one in known if records.units.compatible(one.unit, limit.unit)]
    return [_scaled(one, limit.unit, records) for one in fit]


def _scaled(instrument: Instrument, unit: str, records: Records) -> Instrument:
    def figure(size: float) -> float:
        return records.units.convert_difference(size, instrument.unit, unit)

    error = instrument.limit_of_error
    return replace(
        instrument,
        unit=unit,
        resolution=figure(instrument.resolution),
        limit_of_error=None if error is None else figure(error),
    )
