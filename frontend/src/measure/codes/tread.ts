/**
 * What uneven wear across the tread of a tyre points to.
 * Source: common practice, as tyre makers' wear charts agree on it; a hint where to measure next, never a verdict.
 */

const EVEN = "even";
const INNER =
  "inner shoulder: camber leaning in, toe out, worn joints or sagging springs - measure the geometry";
const OUTER = "outer shoulder: camber leaning out, toe in, or hard cornering - measure the geometry";
const SHOULDERS = "both shoulders: pressure too low, or overloaded - check pressure and load";
const MIDDLE = "middle: pressure too high for the load, or hard pulling away - check pressure";

/** Where the tread is worn, and what that points to; all depths in one unit, new tread of even depth. */
export function wearPattern(inner: number, middle: number, outer: number, evenWithin: number): string {
  if (Math.max(inner, middle, outer) - Math.min(inner, middle, outer) <= evenWithin) return EVEN;
  const across = inner - outer;
  const crown = middle - (inner + outer) / 2;
  if (Math.abs(across) > Math.abs(crown)) return across < 0 ? INNER : OUTER;
  return crown > 0 ? SHOULDERS : MIDDLE;
}
