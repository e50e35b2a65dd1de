/**
 * Brakes: the smallest thickness stamped on a disc, and the boiling point its fluid must have.
 * Source of the boiling points: 49 CFR 571.116 (FMVSS 116), S5.1.1 and S5.1.2; all but the wet one of DOT 4 from memory.
 */

import { MeasureError } from "../errors";

const STAMP = new RegExp(
  "^(?:MIN(?:IMUM)?[ .:]*)(?:TH(?:ICKNESS|ICK|K)?[ .:]*)?=?[ ]*([0-9]{1,2}[.,][0-9]{1,3}|[0-9]{1,2}|[.,][0-9]{2,3})" +
    '[ ]*(MM|IN|INCH|")?\\.?$',
);
const INCH_MM = 25.4;
const MOST_MM = 60;
const DRY_CEL = new Map([
  ["DOT 3", 205],
  ["DOT 4", 230],
  ["DOT 5", 260],
  ["DOT 5.1", 260],
]);
/** Lowest equilibrium reflux boiling points: new fluid, and fluid that has taken up water as the standard lays down. */
const WET_CEL = new Map([
  ["DOT 3", 140],
  ["DOT 4", 155],
  ["DOT 5", 180],
  ["DOT 5.1", 180],
]);
const TABLES = new Map([
  ["dry", DRY_CEL],
  ["wet", WET_CEL],
]);

/**
 * The smallest thickness from a stamp such as `MIN TH 22.4 mm`, `Min. Th. = 0.882 in` or `min 9,0`, in millimetres.
 * Without a unit millimetres are meant, or inches for a figure below 2. Throws MeasureError `outside-domain` else.
 */
export function discMinimumMm(stamp: string): number {
  const found = STAMP.exec(
    stamp
      .trim()
      .toUpperCase()
      .replace(/[ \t]+/g, " "),
  );
  if (!found) throw new MeasureError("outside-domain", "write the stamp as MIN TH 22.4 mm");
  const figure = Number((found[1] ?? "").replace(",", "."));
  const inches = found[2] === undefined ? figure < 2 : found[2] !== "MM";
  const thickness = inches ? figure * INCH_MM : figure;
  if (!(thickness >= 1 && thickness <= MOST_MM)) {
    throw new MeasureError("outside-domain", "a disc is between 1 and 60 mm thick; read the stamp again");
  }
  return thickness;
}

/** The lowest boiling point in degrees Celsius of a grade such as `DOT 4`, `dry` (new) or `wet`. */
export function boilingMinimumCel(grade: string, state: string): number {
  const table = TABLES.get(state.toLowerCase());
  const point = table?.get(grade.toUpperCase().replace(/^DOT[ -]?/, "DOT "));
  if (point === undefined) {
    throw new MeasureError(
      "outside-domain",
      `the grades are ${[...DRY_CEL.keys()].join(", ")}, each dry or wet`,
    );
  }
  return point;
}
