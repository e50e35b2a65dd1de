/**
 * Vehicle identification numbers: check digit, wrong characters, model year, region.
 * Sources: ISO 3779 (shape), 49 CFR 565.15 (check digit, Table VII of model years and its note on position 7), ISO 3780
 * (regions, as several public listings give them). The check digit is the rule in North America only: elsewhere a number
 * that fails it may be right, so warn and never refuse.
 */

import { MeasureError } from "../errors";

const LENGTH = 17;
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
/** Each character with the characters of its value: a character stands at the place of its value. */
const ROWS = ["0123456789", ".ABCDEFGH", ".JKLMN.P.R", "..STUVWXYZ"];
const YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789";
const FIRST_YEAR = 1980;
const REGIONS: readonly (readonly [string, string])[] = [
  ["ABC", "Africa"],
  ["JKLMNPR", "Asia"],
  ["STUVWXYZ", "Europe"],
  ["12345", "North America"],
  ["6", "Oceania"],
  ["89", "South America"],
];

/** The sum of value times weight over all 17 characters. Throws MeasureError `outside-domain` for a wrong shape. */
export function weightedSum(vin: string): number {
  const characters = [...vin.toUpperCase()];
  if (characters.length !== LENGTH || invalidPositions(vin).length > 0) {
    throw new MeasureError("outside-domain", "a VIN has 17 letters and digits, never I, O or Q");
  }
  return characters.reduce((sum, character, i) => sum + count(character) * (WEIGHTS[i] ?? 0), 0);
}

/** The digit, or X, that position 9 should hold. */
export function checkDigit(vin: string): string {
  const rest = weightedSum(vin) % 11;
  return rest === 10 ? "X" : String(rest);
}

/** Whether position 9 holds the check digit; a wrong shape is not valid. */
export function checkValid(vin: string): boolean {
  try {
    return checkDigit(vin) === vin.toUpperCase()[8];
  } catch (error) {
    if (error instanceof MeasureError) return false;
    throw error;
  }
}

/** Maker (positions 1 to 3), description (4 to 9) and serial part (10 to 17), as ISO 3779 divides the number. */
export function parts(vin: string): string[] {
  weightedSum(vin);
  const number = vin.toUpperCase();
  return [number.slice(0, 3), number.slice(3, 9), number.slice(9)];
}

/** The positions, counted from 1, whose character never stands in a VIN. */
export function invalidPositions(vin: string): number[] {
  return [...vin.toUpperCase()].flatMap((character, i) => (count(character) < 0 ? [i + 1] : []));
}

/** The years that the code in position 10 may mean; none when the code is not one. */
export function modelYearCandidates(code: string): number[] {
  const place = code.length === 1 ? YEAR_CODES.indexOf(code.toUpperCase()) : -1;
  return place < 0 ? [] : [FIRST_YEAR + place, FIRST_YEAR + place + YEAR_CODES.length];
}

/** The model year of a US passenger car, MPV or truck up to 4536 kg: a digit in position 7 means before 2010. */
export function modelYearUsLight(seventh: string, code: string): number {
  const [early, late] = modelYearCandidates(code);
  if (early === undefined || late === undefined || seventh.length !== 1 || count(seventh.toUpperCase()) < 0) {
    throw new MeasureError("outside-domain", "positions 7 and 10 do not name a model year");
  }
  return /^[0-9]$/.test(seventh) ? early : late;
}

/** The part of the world of the first character; `not sure` where the lists have changed or disagree. */
export function region(first: string): string {
  if (first.length !== 1 || count(first.toUpperCase()) < 0) {
    throw new MeasureError("outside-domain", "position 1 is a letter or a digit, never I, O or Q");
  }
  return REGIONS.find(([codes]) => codes.includes(first.toUpperCase()))?.[1] ?? "not sure";
}

/** The value of a character, or -1 when it never stands in a VIN. */
function count(character: string): number {
  return character === "." ? -1 : Math.max(...ROWS.map((row) => row.indexOf(character)));
}
