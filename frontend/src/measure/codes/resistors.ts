/**
 * Resistors: colour bands and preferred values.
 * Sources: IEC 60062 (colours, from memory), IEC 60063 (series E24; E96 as 10^(n/96) to three digits).
 */

import { roundAway } from "../arithmetic";
import { MeasureError } from "../errors";

const COLOURS = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"];
const POWERS = new Map([...COLOURS.map((colour, i) => [colour, i] as const), ["gold", -1], ["silver", -2]]);
/** The least resistor to put in place of a sender, in ohms. */
const SMALLEST = 1;
const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

/** The resistance in ohms of three to six bands: two digits up to four bands, else three; tolerance is not read. */
export function decode(bands: readonly string[]): number {
  const colours = bands.map((band) => band.toLowerCase().replaceAll("gray", "grey"));
  const count = colours.length < 5 ? 2 : 3;
  const power = POWERS.get(colours[count] ?? "");
  if (colours.length < 3 || colours.length > 6 || power === undefined) {
    throw new MeasureError("outside-domain", "name three to six bands by colour");
  }
  const digits = colours.slice(0, count).reduce((sum, colour) => sum * 10 + digit(colour), 0);
  return timesTen(digits, power);
}

/** The colours of the first three bands, two digits and a power of ten, of an E24 value from 0.1 ohm to 91 Mohm. */
export function bands(resistance: number): string[] {
  const power = resistance > 0 ? Math.floor(Math.log10(resistance)) - 1 : -9;
  const digits = power >= -2 && power <= 6 ? roundAway(timesTen(1, -power) * resistance) : 0;
  if (!E24.includes(digits) || Math.abs(timesTen(digits, power) - resistance) > 1e-9 * resistance) {
    throw new MeasureError(
      "outside-domain",
      "only values of the series E24 from 0.1 ohm to 91 Mohm have two digits",
    );
  }
  const third = [...POWERS].find(([, one]) => one === power)?.[0];
  return [COLOURS[Math.floor(digits / 10)], COLOURS[digits % 10], third].filter((one) => one !== undefined);
}

/**
 * The E24 value nearest to what a straight sender has at a level in per cent, from its ends in ohms; 1 ohm or more.
 *
 * Some senders begin at 0 ohm. A bare wire in their place may short a supply, and none of them can tell 1 ohm from 0.
 */
export function substitute(level: number, empty: number, full: number): number {
  return e24Nearest(Math.max(SMALLEST, empty + ((full - empty) * level) / 100));
}

/** The value of place n in the series, between 1 and 10 for n from 0 to 95. */
export function e96Value(n: number): number {
  if (n < 0 || n > 95) throw new MeasureError("outside-domain", "the series has places 0 to 95");
  return roundAway(100 * Math.pow(10, n / 96)) / 100;
}

/** The E24 value nearest in ohms; the lower one at the middle. */
export function e24Nearest(resistance: number): number {
  return nearest(
    resistance,
    E24.map((value) => value * 10),
  );
}

/** The E96 value nearest in ohms; the lower one at the middle. */
export function e96Nearest(resistance: number): number {
  return nearest(
    resistance,
    Array.from({ length: 96 }, (_, n) => roundAway(100 * e96Value(n))),
  );
}

function digit(colour: string): number {
  const value = COLOURS.indexOf(colour);
  if (value < 0) throw new MeasureError("outside-domain", `${colour} cannot be a digit`);
  return value;
}

function nearest(resistance: number, hundreds: readonly number[]): number {
  if (!(resistance >= 1e-6 && resistance <= 1e12)) {
    throw new MeasureError("outside-domain", "a resistance is positive");
  }
  const power = Math.floor(Math.log10(resistance)) - 2;
  const values = [...hundreds, 1000].map((value) => timesTen(value, power));
  return values.reduce((best, value) =>
    Math.abs(value - resistance) < Math.abs(best - resistance) ? value : best,
  );
}

/** digits * 10^power with one rounding. */
function timesTen(digits: number, power: number): number {
  return power >= 0 ? digits * Math.pow(10, power) : digits / Math.pow(10, -power);
}
