/** Standard uncertainty of readings: what repeats show, what the instrument allows, how both combine (JCGM 100). */

import { at, mean, number, total } from "./arithmetic";
import type { Instrument } from "./book";
import { MeasureError } from "./errors";
import { studentQuantile } from "./special";

/** What of an instrument counts here: smallest step shown and greatest error its maker allows, in one unit. */
export type Gauge = Pick<Instrument, "resolution" | "limit_of_error">;

/** Type B, smallest step shown: step / sqrt(12), a rectangle half a step to either side (JCGM 100 F.2.2.1). */
export function resolutionPart(step: number): number {
  return size(step, "the resolution") / Math.sqrt(12);
}

/** Type B, limits of error of +- limit: limit / sqrt(3), a rectangle (JCGM 100 4.3.7). */
export function limitsPart(limit: number): number {
  return size(limit, "the limit of error") / Math.sqrt(3);
}

/** Sample standard deviation of two or more readings (JCGM 100 4.2.2), in their unit. */
export function spread(values: readonly number[]): number {
  if (values.length < 2) throw new MeasureError("missing-input", "a spread needs two or more readings");
  const middle = mean(values);
  return Math.sqrt(total(values.map((value) => (value - middle) * (value - middle))) / (values.length - 1));
}

/** Type A, of the mean of two or more readings: s / sqrt(n) (JCGM 100 4.2.3). */
export function repeatsPart(values: readonly number[]): number {
  return spread(values) / Math.sqrt(values.length);
}

/** Parts that have nothing to do with each other, added in squares (JCGM 100 5.1.2). */
export function combined(parts: readonly number[]): number {
  return Math.sqrt(total(parts.map((part) => part * part)));
}

/**
 * Standard uncertainty of the mean of the readings, all in the instrument's unit. Repeats already show the resolution, so
 * the larger of the two counts, not both; the limits of error are added in squares.
 * Throws MeasureError `missing-input`, `not-a-number`, `out-of-range`.
 */
export function readingUncertainty(values: readonly number[], instrument: Gauge): number {
  if (values.length === 0) throw new MeasureError("missing-input", "there is no reading");
  const readings = values.map((value) => number(value, "a reading"));
  const scatter = readings.length > 1 ? repeatsPart(readings) : 0;
  const shown = Math.max(scatter, resolutionPart(instrument.resolution));
  return combined([shown, limitsPart(instrument.limit_of_error ?? 0)]);
}

/** Degrees of freedom of a combined uncertainty u by Welch and Satterthwaite (JCGM 100 G.4.1). Round it down. */
export function effectiveFreedom(u: number, parts: readonly number[], freedoms: readonly number[]): number {
  if (parts.length !== freedoms.length || parts.length === 0) {
    throw new MeasureError("missing-input", "every part needs its degrees of freedom");
  }
  if (freedoms.some((freedom) => freedom <= 0)) {
    throw new MeasureError("outside-domain", "degrees of freedom are positive");
  }
  const below = total(parts.map((part, i) => (part * part * part * part) / at(freedoms, i)));
  if (below === 0) throw new MeasureError("outside-domain", "the parts are all zero");
  return (u * u * u * u) / below;
}

/** Two-sided coverage factor of Student's distribution (JCGM 100 G.3.2); probability between 0 and 1. */
export function coverageFactor(probability: number, freedom: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new MeasureError("outside-domain", "a probability lies between 0 and 1");
  }
  return studentQuantile((1 + probability) / 2, freedom);
}

function size(value: number, what: string): number {
  if (number(value, what) < 0) throw new MeasureError("out-of-range", `${what} cannot be negative`);
  return value;
}
