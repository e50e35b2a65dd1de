/** Greatest resistance of copper conductors by their nominal size (IEC 60228, plain copper at 20 Cel). */

import { MeasureError } from "../errors";

const SIZES_MM2 = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50];
const STIFF = [36, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524, 0.387];
const FLEXIBLE = [39, 26, 19.5, 13.3, 7.98, 4.95, 3.3, 1.91, 1.21, 0.78, 0.554, 0.386];
const CLASSES = new Map([
  ["1", STIFF],
  ["2", STIFF],
  ["5", FLEXIBLE],
  ["6", FLEXIBLE],
]);

/** In Ohm/km. The size is a name and no measured area. Throws MeasureError `outside-domain` outside the table. */
export function maxResistance(conductorClass: string, sizeMm2: number): number {
  const found = CLASSES.get(conductorClass)?.[SIZES_MM2.indexOf(sizeMm2)];
  if (found === undefined) {
    const sizes = SIZES_MM2.join(" ");
    throw new MeasureError("outside-domain", `the table has classes 1 2 5 6 and sizes ${sizes} mm2`);
  }
  return found;
}
