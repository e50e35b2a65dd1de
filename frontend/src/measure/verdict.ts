/** Whether a reading is in order, beyond its limit, or too close to call, and what would settle it (JCGM 106). */

import { mean, number } from "./arithmetic";
import { MeasureError } from "./errors";
import { combined, type Gauge, limitsPart, readingUncertainty, resolutionPart, spread } from "./uncertainty";

export type State = "in-order" | "beyond" | "too-close" | "recorded";
/** A reading above `above`, or below `below`, is beyond the limit; null or left out where there is no such bound. */
export type Bounds = { above?: number | null; below?: number | null };
/**
 * What would make a reading clear if it stays where it is. repeats: how many readings in all with the same instrument,
 * null when repeating cannot do it; instruments: ids of those that would do it with as many readings as were taken.
 */
export type Settle = { repeats: number | null; instruments: string[] };

export const MOST_REPEATS = 30;
const WORST_FIRST = ["beyond", "too-close", "in-order"] as const;

/**
 * Where a reading stands against its bounds, all in one unit.
 * u: standard uncertainty; value +- k u is the coverage interval. A bound strictly inside it makes the reading too close
 * to call, so both `in-order` and `beyond` are guarded decisions (JCGM 106:2012, 8.3, guard band k u).
 * No bound: `recorded`, never a pass. Throws MeasureError `not-a-number`, `out-of-range`.
 */
export function verdict(value: number, u: number, bounds: Bounds, k = 2): State {
  const span = reach(u, k);
  const states = sides(bounds).map(([sign, bound]) =>
    against(sign * number(value, "the reading"), sign * bound, span),
  );
  return WORST_FIRST.find((state) => states.includes(state)) ?? "recorded";
}

/**
 * How many readings, or which other instruments, would make the verdict on the mean of `values` clear.
 * values, bounds and every instrument in one unit. Empty when nothing would, for instance with the limit itself read.
 */
export function settle(
  values: readonly number[],
  instrument: Gauge,
  bounds: Bounds,
  others: Readonly<Record<string, Gauge>>,
  k = 2,
): Settle {
  const value = values.length > 0 ? mean(values.map((reading) => number(reading, "a reading"))) : 0;
  const gaps = sides(bounds).map(([, bound]) => Math.abs(value - bound));
  const gap = gaps.length > 0 ? Math.min(...gaps) / k : 0;
  if (values.length === 0 || gap === 0) return { repeats: null, instruments: [] };
  const able = Object.keys(others).filter((id) => {
    const other = others[id];
    return other !== undefined && readingUncertainty(values, other) <= gap;
  });
  return { repeats: repeatsFor(values, instrument, gap), instruments: able };
}

/** The least number of readings whose mean has an uncertainty of no more than the gap (u falls as s / sqrt(n)). */
function repeatsFor(values: readonly number[], instrument: Gauge, gap: number): number | null {
  const limits = limitsPart(instrument.limit_of_error ?? 0);
  if (values.length < 2 || combined([resolutionPart(instrument.resolution), limits]) > gap) return null;
  const scatter = spread(values);
  for (let count = values.length; count <= MOST_REPEATS; count++) {
    if (combined([scatter / Math.sqrt(count), limits]) <= gap) return count;
  }
  return null;
}

/** Each bound with the sign that turns it into one not to be exceeded. */
function sides(bounds: Bounds): [number, number][] {
  const found: [number, number][] = [];
  if (typeof bounds.above === "number") found.push([1, number(bounds.above, "the limit")]);
  if (typeof bounds.below === "number") found.push([-1, number(bounds.below, "the limit")]);
  return found;
}

function against(value: number, bound: number, span: number): State {
  if (value + span <= bound) return "in-order";
  return value - span >= bound ? "beyond" : "too-close";
}

function reach(u: number, k: number): number {
  if (number(u, "the uncertainty") < 0 || number(k, "the coverage factor") <= 0) {
    throw new MeasureError(
      "out-of-range",
      "an uncertainty is not negative and a coverage factor is positive",
    );
  }
  return k * u;
}
