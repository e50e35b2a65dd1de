/**
 * Decisions against tolerance limits with a guard band, and the risks they carry.
 * Sources: JCGM 106:2012 (clauses 7 to 9), ILAC-G8:09/2019 (4.2.2, 4.2.3). Every quantity of one call is in one unit;
 * `lower` and `upper` are the tolerance limits, null where there is none.
 */

import { MeasureError } from "./errors";
import { bisect, gammaAbove, integrate, logGamma, normalBelow, normalQuantile } from "./special";

type Bound = number | null;

/** The probability that a quantity measured as y with standard uncertainty u lies within its tolerance (normal). */
export function probability(y: number, u: number, lower: Bound, upper: Bound): number {
  if (u <= 0) throw new MeasureError("outside-domain", "the uncertainty is positive");
  const above = upper === null ? 1 : normalBelow((upper - y) / u);
  return above - (lower === null ? 0 : normalBelow((lower - y) / u));
}

/** `pass` inside the tolerance narrowed by the guard on each side, else `fail`. */
export function binary(y: number, guard: number, lower: Bound, upper: Bound): string {
  return inside(y, guard, lower, upper) ? "pass" : "fail";
}

/** `pass`, `conditional pass` (inside, within the guard), `conditional fail` (outside by less than it), `fail`. */
export function nonbinary(y: number, guard: number, lower: Bound, upper: Bound): string {
  if (inside(y, guard, lower, upper)) return "pass";
  if (inside(y, 0, lower, upper)) return "conditional pass";
  return inside(y, -guard, lower, upper) ? "conditional fail" : "fail";
}

/** The reading from which the limit is exceeded with probability p; uncertainty in per cent of the reading. */
export function rejectionLimit(limit: number, uRelPercent: number, p: number): number {
  const share = 1 - (normalQuantile(p) * uRelPercent) / 100;
  if (share <= 0)
    throw new MeasureError("outside-domain", "the uncertainty is too large for that probability");
  return limit / share;
}

/** The greatest probability of a wrong pass with a guard band of r times the expanded uncertainty k u. */
export function falseAcceptAtLimit(r: number, k: number): number {
  return normalBelow(-r * k);
}

/** The r that holds a wrong pass at the limit to the given risk. */
export function guardMultiplier(risk: number, k: number): number {
  if (k <= 0) throw new MeasureError("outside-domain", "the coverage factor is positive");
  return normalQuantile(1 - risk) / k;
}

/** The part of a production with gamma-distributed values above the upper limit. */
export function gammaOutOfTolerance(shape: number, scale: number, upper: number): number {
  if (scale <= 0) throw new MeasureError("outside-domain", "the scale is positive");
  return gammaAbove(shape, upper / scale);
}

/** The part of a gamma-distributed production that is above the limit and yet measured below limit less guard. */
export function gammaFalseAccept(
  shape: number,
  scale: number,
  upper: number,
  u: number,
  guard: number,
): number {
  if (!(shape > 0 && shape <= 100) || scale <= 0 || u <= 0 || upper <= 0) {
    throw new MeasureError("outside-domain", "shape, scale, uncertainty and limit are positive");
  }
  const accepted = (value: number): number => {
    const x = value / scale;
    const density = Math.exp((shape - 1) * Math.log(x) - x - logGamma(shape)) / scale;
    return density * normalBelow((upper - guard - value) / u);
  };
  return integrate(accepted, upper, upper + 12 * u + Math.max(0, -guard));
}

/** The guard band that holds the false acceptances of a gamma-distributed production to the target. */
export function gammaGuardForRisk(
  shape: number,
  scale: number,
  upper: number,
  u: number,
  target: number,
): number {
  if (!(target > 0 && target < gammaFalseAccept(shape, scale, upper, u, 0))) {
    throw new MeasureError("outside-domain", "the target lies between 0 and the risk without a guard band");
  }
  return bisect((guard) => target - gammaFalseAccept(shape, scale, upper, u, guard), 0, 40 * u);
}

function inside(y: number, guard: number, lower: Bound, upper: Bound): boolean {
  if (lower === null && upper === null) {
    throw new MeasureError("missing-input", "give at least one tolerance limit");
  }
  return (lower === null || y >= lower + guard) && (upper === null || y <= upper - guard);
}
