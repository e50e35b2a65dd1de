/** Inches as a rule or a tread gauge shows them: whole, fraction, or both. */

import { MeasureError } from "../errors";

const WRITTEN = /^(?:(?:([0-9]{1,3})[ -])?([0-9]{1,3})\/([1-9][0-9]{0,2})|([0-9]{1,3}(?:[.,][0-9]{1,6})?))$/;

/** The inches of `7/32`, `1 3/8`, `1-3/8`, `2` or `0.5`, an inch mark allowed. Throws MeasureError `outside-domain`. */
export function inches(text: string): number {
  const found = WRITTEN.exec(text.replace(/[ ]*("|in|inch)$/, ""));
  if (!found) throw new MeasureError("outside-domain", "write inches as 1 3/8 or 7/32");
  if (found[4] !== undefined) return Number(found[4].replace(",", "."));
  return Number(found[1] ?? 0) + Number(found[2]) / Number(found[3]);
}
