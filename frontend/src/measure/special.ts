/**
 * Distributions that have no closed form: normal, Student and gamma. The same steps as on the server.
 * Sources: NIST Digital Library of Mathematical Functions 5.11, 7.2, 8.7, 8.9, 8.17.22; fractions by the modified Lentz
 * method.
 */

import { MeasureError } from "./errors";

const STEPS = 500;
const HALVINGS = 200;
const TINY = 1e-300;
const CLOSE = 1e-15;
const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** B(2m) / (2m (2m - 1)), the terms of Stirling's series. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
const STIRLING_FROM = 15;

/** The part of a standard normal distribution below z. */
export function normalBelow(z: number): number {
  const beyond = 0.5 * gammaAbove(0.5, (z * z) / 2);
  return z < 0 ? beyond : 1 - beyond;
}

/** The z below which the part p of a standard normal distribution lies. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new MeasureError("outside-domain", "a probability lies between 0 and 1");
  if (p > 0.5) return -normalQuantile(1 - p);
  return bisect((z) => normalBelow(z) - p, -40, 0);
}

/** The t below which the part p >= 0.5 of Student's distribution lies; freedom >= 1. */
export function studentQuantile(p: number, freedom: number): number {
  if (!(freedom >= 1 && freedom <= 1e6)) {
    throw new MeasureError("outside-domain", "degrees of freedom lie between 1 and a million");
  }
  let high = 1;
  while (studentAbove(high, freedom) > 1 - p) {
    high *= 2;
    if (high > 1e12) throw new MeasureError("outside-domain", "the probability is too near to 1");
  }
  return bisect((t) => 1 - p - studentAbove(t, freedom), 0, high);
}

/** The part of a gamma distribution (scale 1) above x: the regularised upper incomplete gamma function. */
export function gammaAbove(shape: number, x: number): number {
  if (!(shape > 0 && shape <= 1e4) || x < 0) {
    throw new MeasureError(
      "outside-domain",
      "a gamma distribution needs a positive shape and no negative value",
    );
  }
  if (x === 0) return 1;
  const scale = Math.exp(shape * Math.log(x) - x - logGamma(shape));
  return x < shape + 1 ? 1 - scale * gammaSeries(shape, x) : scale * gammaFraction(shape, x);
}

/** ln of the gamma function for positive x: Stirling's series, after stepping up to where it is exact to the last digit. */
export function logGamma(x: number): number {
  let product = 1;
  let high = x;
  for (; high < STIRLING_FROM; high += 1) product *= high;
  const series = STIRLING.reduceRight((sum, term) => sum / (high * high) + term, 0) / high;
  return (high - 0.5) * Math.log(high) - high + HALF_LOG_TWO_PI + series - Math.log(product);
}

/** Where a rising function crosses zero, to the last digit that halving can give. */
export function bisect(work: (x: number) => number, low: number, high: number): number {
  let middle = (low + high) / 2;
  for (let left = HALVINGS; left > 0 && low < middle && middle < high; left--) {
    if (work(middle) < 0) low = middle;
    else high = middle;
    middle = (low + high) / 2;
  }
  return middle;
}

/** Simpson's rule over an even number of panels. */
export function integrate(work: (x: number) => number, low: number, high: number, panels = 400): number {
  const width = (high - low) / panels;
  let result = work(low) + work(high);
  for (let i = 1; i < panels; i++) result += (i % 2 ? 4 : 2) * work(low + i * width);
  return (result * width) / 3;
}

function studentAbove(t: number, freedom: number): number {
  return 0.5 * betaBelow(freedom / 2, 0.5, freedom / (freedom + t * t));
}

/** The regularised incomplete beta function. */
function betaBelow(a: number, b: number, x: number): number {
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
  if (x < (a + 1) / (a + b + 2)) return (front * betaFraction(a, b, x)) / a;
  return 1 - (front * betaFraction(b, a, 1 - x)) / b;
}

function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / apart(1 - ((a + b) * x) / (a + 1));
  let result = d;
  let change = 0;
  for (let m = 1; Math.abs(change - 1) >= CLOSE && m < STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    for (const term of [even, odd]) {
      d = 1 / apart(1 + term * d);
      c = apart(1 + term / c);
      change = c * d;
      result *= change;
    }
  }
  return result;
}

function gammaSeries(shape: number, x: number): number {
  let term = 1 / shape;
  let result = term;
  for (let n = 1; term >= result * CLOSE && n < STEPS; n++) {
    term *= x / (shape + n);
    result += term;
  }
  return result;
}

function gammaFraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = 1 / TINY;
  let d = 1 / apart(b);
  let result = d;
  let change = 0;
  for (let n = 1; Math.abs(change - 1) >= CLOSE && n < STEPS; n++) {
    const term = -n * (n - shape);
    b += 2;
    d = 1 / apart(term * d + b);
    c = apart(b + term / c);
    change = c * d;
    result *= change;
  }
  return result;
}

/** The value, kept away from zero so that it can be divided by. */
function apart(value: number): number {
  return Math.abs(value) > TINY ? value : TINY;
}
