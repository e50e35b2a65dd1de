/** The limits of a check held against what was read, and which of them counts. */
import type { Instrument, Limit } from "../measure/book";
import { MeasureError } from "../measure/errors";
import { settle, verdict, type Bounds } from "../measure/verdict";
import { inUnit, isNumeric, readingOf, taken, valuesOf, type Reading } from "./reading";
import { answerUpTo, factIn, type Records } from "./records";
import type { Answer, LimitOutcome, Step, StepOutcome } from "./types";
import { GRADE_RANK } from "./grades";
import { workedOut } from "./worked";

/** A limit's outcome with the reading it was judged on, in the reading's own unit. */
export type Judged = LimitOutcome & { reading: Reading | null; bounds: Bounds };
/** What a step's limits are held against. */
export type Subject = { step: Step; round: number; answer: Answer | null; worked: Reading | null };

/** Every limit of the check, in the order of the book. */
export function judgeLimits(subject: Subject, records: Records): Judged[] {
  return subject.step.check.limits.map((limit) => judged(limit, subject, records));
}

/** The limit that decides a step: the worst beyond, else the worst too close, else the first in order; or null. */
export function deciding(limits: readonly Judged[]): Judged | null {
  for (const state of ["beyond", "too-close", "in-order"] as const) {
    const found = limits.filter((one) => one.state === state);
    const [first, ...more] = found;
    if (first)
      return more.reduce(
        (worst, one) => (GRADE_RANK[one.limit.grade] < GRADE_RANK[worst.limit.grade] ? one : worst),
        first,
      );
  }
  return null;
}

function judged(limit: Limit, subject: Subject, records: Records): Judged {
  const bounds = boundsOf(limit, records);
  const reading = subjectReading(limit, subject, records);
  const state = bounds && reading ? stateOf(limit, reading, bounds, records) : "unknown";
  return { limit, state, bound: nearest(bounds, reading?.value ?? 0), reading, bounds: bounds ?? {} };
}

function stateOf(limit: Limit, reading: Reading, bounds: Bounds, records: Records): LimitOutcome["state"] {
  if (!records.units.compatible(reading.unit, limit.unit)) return "unknown";
  const { value, u } = inUnit(reading, limit.unit, isDifference(limit), records.units);
  const state = verdict(value, u ?? 0, bounds);
  return state === "recorded" ? "unknown" : state;
}

/** The bounds in the limit's unit; null when they are the maker's and nobody has typed them yet. */
function boundsOf(limit: Limit, records: Records): Bounds | null {
  if (!limit.maker)
    return {
      ...(limit.above === undefined ? {} : { above: limit.above }),
      ...(limit.below === undefined ? {} : { below: limit.below }),
    };
  const fact = factIn(records.standing, `vehicle/maker/${limit.maker.key}`);
  if (typeof fact?.value !== "number") return null;
  const unit = fact.unit ?? limit.unit;
  if (!records.units.compatible(unit, limit.unit)) return null;
  const figure = isDifference(limit)
    ? records.units.convertDifference(fact.value, unit, limit.unit)
    : records.units.convert(fact.value, unit, limit.unit);
  return { [limit.maker.is]: figure };
}

function nearest(bounds: Bounds | null, value: number): number | null {
  const { above = null, below = null } = bounds ?? {};
  if (above === null || below === null) return above ?? below;
  return Math.abs(value - above) <= Math.abs(value - below) ? above : below;
}

function isDifference(limit: Limit): boolean {
  return limit.of === "range" || limit.of === "side-difference";
}

function subjectReading(limit: Limit, subject: Subject, records: Records): Reading | null {
  if (limit.of === "side-difference") return sideDifference(subject, records);
  if (subject.worked) return limit.of === "value" ? subject.worked : null;
  return numericReading(subject.answer, limit.of, records);
}

function numericReading(answer: Answer | null, take: string, records: Records): Reading | null {
  return answer && isNumeric(answer)
    ? readingOf(answer, take, records.book.instruments, records.units)
    : null;
}

/** How far a reading is from that on the other side, in its own unit; null until both sides are read. */
function sideDifference(subject: Subject, records: Records): Reading | null {
  const { step, round } = subject;
  const own = subject.worked ?? sideReading(subject.answer, records);
  const pair = step.place.pair;
  if (!own || pair === null || !step.check.at.includes(pair)) return null;
  const other =
    step.check.answer.kind === "worked-out"
      ? workedOut(step.check, pair, round, records).reading
      : sideReading(answerUpTo(records, step.check.id, pair, round)?.answer ?? null, records);
  if (!other || !records.units.compatible(other.unit, own.unit)) return null;
  const there = inUnit(other, own.unit, false, records.units);
  const u = own.u === null && there.u === null ? null : Math.hypot(own.u ?? 0, there.u ?? 0);
  return { value: Math.abs(own.value - there.value), u, unit: own.unit };
}

function sideReading(answer: Answer | null, records: Records): Reading | null {
  return numericReading(answer, answer?.is === "spread" ? "mean" : "value", records);
}

/** What would make a reading that is too close to its limit clear, as far as that can be told. */
export function settling(judged: Judged, subject: Subject, records: Records): StepOutcome["settle"] {
  const { answer, step } = subject;
  const { limit, bounds } = judged;
  const named = answer && isNumeric(answer) ? answer.instrument : undefined;
  const spec = step.check.answer;
  const [instrument] = named === undefined ? [] : inLimitUnit([named], limit, records);
  if (!instrument || !answer || !isNumeric(answer) || isDifference(limit) || !("instruments" in spec))
    return { repeats: null, instrument: null };
  const single = taken(answer, limit.of);
  const values = answer.is === "number" ? valuesOf(answer) : single === null ? [] : [single];
  const others = inLimitUnit(
    spec.instruments.filter((id) => id !== named),
    limit,
    records,
  );
  const found = settle(
    values.map((value) => records.units.convert(value, answer.unit, limit.unit)),
    instrument,
    bounds,
    Object.fromEntries(others.map((other) => [other.id, other])),
  );
  return { repeats: found.repeats, instrument: found.instruments[0] ?? null };
}

/** Those of the named instruments that are known, with their figures in the limit's unit. */
function inLimitUnit(ids: readonly string[], limit: Limit, records: Records): Instrument[] {
  const { book, units } = records;
  return ids.flatMap((id) => {
    const instrument = Object.hasOwn(book.instruments, id) ? book.instruments[id] : undefined;
    if (!instrument) return [];
    try {
      const figure = (size: number) => units.convertDifference(size, instrument.unit, limit.unit);
      const error = instrument.limit_of_error;
      const limits = error === undefined ? {} : { limit_of_error: figure(error) };
      return [{ ...instrument, ...limits, unit: limit.unit, resolution: figure(instrument.resolution) }];
    } catch (error) {
      if (error instanceof MeasureError) return [];
      throw error;
    }
  });
}
