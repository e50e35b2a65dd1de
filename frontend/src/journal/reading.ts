/** Numbers out of an answer, with their standard uncertainty. */
import type { Instrument } from "../measure/book";
import { readingUncertainty } from "../measure/uncertainty";
import type { Units } from "../measure/units";
import type { Answer } from "./types";

/** A number with its unit; `u` is its standard uncertainty, null when no instrument was named. */
export type Reading = { value: number; u: number | null; unit: string };
export type Numeric = Extract<Answer, { is: "number" | "spread" | "run" }>;
export type Instruments = Readonly<Record<string, Instrument>>;

/** Whether an answer holds numbers. */
export function isNumeric(answer: Answer): answer is Numeric {
  return answer.is === "number" || answer.is === "spread" || answer.is === "run";
}

/** All readings of an answer: the repeats of a number, the points of a spread, the samples of a run. */
export function valuesOf(answer: Numeric): number[] {
  if (answer.is === "number") return answer.repeats ?? [answer.value];
  return answer.is === "spread" ? Object.values(answer.values) : answer.samples.map(([, value]) => value);
}

/**
 * One number taken from an answer, in the answer's unit, or null when it has none of that name.
 *
 * take: value (of a run: its last reading), first, last, min, max, mean, range, or point:<id> of a spread.
 */
export function taken(answer: Numeric, take: string): number | null {
  const values = valuesOf(answer);
  if (take.startsWith("point:")) return pointOf(answer, take.slice("point:".length));
  switch (take) {
    case "value":
      return answer.is === "number" ? answer.value : answer.is === "run" ? (values.at(-1) ?? null) : null;
    case "first":
      return values[0] ?? null;
    case "last":
      return values.at(-1) ?? null;
    case "min":
      return Math.min(...values);
    case "max":
      return Math.max(...values);
    case "mean":
      return values.reduce((sum, value) => sum + value, 0) / values.length;
    case "range":
      return Math.max(...values) - Math.min(...values);
    default:
      return null;
  }
}

function pointOf(answer: Numeric, point: string): number | null {
  return answer.is === "spread" && Object.hasOwn(answer.values, point)
    ? (answer.values[point] ?? null)
    : null;
}

/**
 * `taken` as a Reading. Only a number's value and mean gain from repeats; a range is a difference of two readings.
 * Source of the uncertainty: JCGM 100:2008, 4.2, 4.3 and 5.1.2.
 */
export function readingOf(
  answer: Numeric,
  take: string,
  instruments: Instruments,
  units: Units,
): Reading | null {
  const value = taken(answer, take);
  if (value === null) return null;
  const averaged = answer.is === "number" && (take === "value" || take === "mean");
  const u = uncertainty(answer, averaged ? valuesOf(answer) : [value], instruments, units);
  return { value, u: take === "range" && u !== null ? u * Math.SQRT2 : u, unit: answer.unit };
}

function uncertainty(
  answer: Numeric,
  values: number[],
  instruments: Instruments,
  units: Units,
): number | null {
  const name = answer.instrument;
  const instrument = name !== undefined && Object.hasOwn(instruments, name) ? instruments[name] : undefined;
  if (!instrument || !units.compatible(answer.unit, instrument.unit)) return null;
  const inItsUnit = values.map((value) => units.convert(value, answer.unit, instrument.unit));
  const u = readingUncertainty(inItsUnit, instrument);
  return units.convertDifference(u, instrument.unit, answer.unit);
}

/** A reading in another unit; `difference` for spreads and differences, which have no zero point. */
export function inUnit(reading: Reading, unit: string, difference: boolean, units: Units): Reading {
  const value = difference
    ? units.convertDifference(reading.value, reading.unit, unit)
    : units.convert(reading.value, reading.unit, unit);
  const u = reading.u === null ? null : units.convertDifference(reading.u, reading.unit, unit);
  return { value, u, unit };
}
