/** The functions that a formula tree may call, with the same rules at the edges as on the server. */

import { MeasureError } from "./errors";

export type Value = number | number[] | boolean;
const MANY = 200;
export const LARGEST_EXPONENT = 1000;

/** The value as a number. Throws MeasureError `not-a-number` for text, truth values, NaN and infinities. */
export function number(value: unknown, where: string): number {
  if (typeof value !== "number" || !Number.isFinite(value)) {
    throw new MeasureError("not-a-number", `${where} needs a number`);
  }
  return value;
}

/** The value, if it is one. Throws MeasureError `outside-domain`. */
export function finite(value: number): number {
  if (!Number.isFinite(value)) throw new MeasureError("outside-domain", "the result cannot be counted");
  return value;
}

/** The value, which must be one number. */
export function asNumber(value: Value): number {
  if (typeof value !== "number") throw new MeasureError("not-a-number", "the formula needs one number here");
  return value;
}

/** The value, which must be a list with something in it. */
export function asList(value: Value): number[] {
  const list = anyList(value);
  if (list.length === 0) throw new MeasureError("outside-domain", "a list is empty");
  return list;
}

function anyList(value: Value): number[] {
  if (!Array.isArray(value)) throw new MeasureError("not-a-number", "the formula needs a list here");
  return value;
}

/** The work done on a number, or on each number of a list. */
export function over(work: (x: number) => number, value: Value): Value {
  return Array.isArray(value) ? value.map((item) => work(item)) : work(asNumber(value));
}

/** base ** exponent. Throws MeasureError `too-large` for huge exponents, `outside-domain` for no real result. */
export function power(base: number, exponent: number): number {
  if (Math.abs(exponent) > LARGEST_EXPONENT) {
    throw new MeasureError("too-large", `an exponent is beyond ${LARGEST_EXPONENT}`);
  }
  return finite(Math.pow(base, exponent));
}

/** To the nearest whole number, halves away from zero. */
export function roundAway(value: number): number {
  const whole = Math.floor(Math.abs(value));
  const rounded = Math.abs(value) - whole >= 0.5 ? whole + 1 : whole;
  return value < 0 ? -rounded : rounded;
}

/** The plain sum from first to last (not a compensated one, so that both languages round alike). */
export function total(values: readonly number[]): number {
  let result = 0;
  for (const value of values) result += value;
  return finite(result);
}

/** The arithmetic mean of at least one value. */
export function mean(values: readonly number[]): number {
  return total(values) / values.length;
}

/** The slope of the straight line through the points by least squares, in y per x. */
export function slope(xs: readonly number[], ys: readonly number[]): number {
  if (xs.length !== ys.length || xs.length < 2) {
    throw new MeasureError(
      "outside-domain",
      "a slope needs two lists of equal length with two or more points",
    );
  }
  const xMean = mean(xs);
  const yMean = mean(ys);
  const across = total(xs.map((x) => (x - xMean) * (x - xMean)));
  if (across === 0) throw new MeasureError("outside-domain", "a slope needs points that differ");
  return finite(total(xs.map((x, i) => (x - xMean) * (at(ys, i) - yMean))) / across);
}

/** Straight between the two neighbours in a table with rising xs; never beyond its ends. */
export function interpolate(x: number, xs: readonly number[], ys: readonly number[]): number {
  if (xs.length !== ys.length || xs.some((b, i) => i > 0 && b <= at(xs, i - 1))) {
    throw new MeasureError("outside-domain", "a table needs two lists of equal length, the first rising");
  }
  const i = xs.findIndex((upper) => x <= upper);
  if (i < 0 || x < at(xs, 0)) throw new MeasureError("outside-domain", "the value lies outside the table");
  if (x === at(xs, i)) return at(ys, i);
  const [x0, y0] = [at(xs, i - 1), at(ys, i - 1)];
  return finite(y0 + (at(ys, i) - y0) * ((x - x0) / (at(xs, i) - x0)));
}

/** The item at a place that is known to exist. */
export function at(values: readonly number[], i: number): number {
  return values[i] ?? Number.NaN;
}

export type Call = { least: number; most: number; work: (values: Value[]) => Value };

function each(work: (x: number) => number): Call {
  return { least: 1, most: 1, work: ([value = false]) => over((x) => finite(work(x)), value) };
}

function ofList(work: (values: number[]) => number): Call {
  return { least: 1, most: 1, work: ([value = false]) => work(asList(value)) };
}

/** Either one list or two and more numbers. */
function ofSeveral(work: (a: number, b: number) => number): Call {
  return {
    least: 1,
    most: MANY,
    work: ([first = false, ...more]) =>
      (more.length === 0 ? asList(first) : [first, ...more].map(asNumber)).reduce(work),
  };
}

/** Each function: least and most arguments, and the work. */
export const CALLS: Record<string, Call> = {
  sqrt: each(Math.sqrt),
  ln: each(Math.log),
  log10: each(Math.log10),
  exp: each(Math.exp),
  sin: each(Math.sin),
  cos: each(Math.cos),
  tan: each(Math.tan),
  asin: each(Math.asin),
  acos: each(Math.acos),
  atan: each(Math.atan),
  abs: each(Math.abs),
  round: each(roundAway),
  floor: each(Math.floor),
  pow: {
    least: 2,
    most: 2,
    work: ([base = false, exponent = false]) => power(asNumber(base), asNumber(exponent)),
  },
  min: ofSeveral((a, b) => Math.min(a, b)),
  max: ofSeveral((a, b) => Math.max(a, b)),
  sum: ofList(total),
  mean: ofList(mean),
  count: { least: 1, most: 1, work: ([value = false]) => anyList(value).length },
  first: ofList((values) => at(values, 0)),
  last: ofList((values) => at(values, values.length - 1)),
  slope: { least: 2, most: 2, work: ([xs = false, ys = false]) => slope(asList(xs), asList(ys)) },
  interp: {
    least: 3,
    most: 3,
    work: ([x = false, xs = false, ys = false]) => interpolate(asNumber(x), asList(xs), asList(ys)),
  },
  pi: { least: 0, most: 0, work: () => Math.PI },
};
