/** A VIN as it is typed or read from a code: what is wrong where, its check digit, region and model year. */
import {
  checkValid,
  invalidPositions,
  modelYearCandidates,
  modelYearUsLight,
  region,
} from "../../measure/codes/vin";

export const REGIONS = ["africa", "asia", "europe", "north-america", "oceania", "south-america"] as const;
export type Region = (typeof REGIONS)[number];

export type VinReading = {
  text: string;
  /** places, counted from 1, of characters that no VIN has */
  wrong: number[];
  /** null while the VIN is not whole */
  digit: "right" | "other" | null;
  /** null while the VIN is not whole, and where the lists do not agree */
  region: Region | null;
  /** what position 10 may mean, the likely one first; one alone where the rule of North America says which */
  years: number[];
};

/** Spaces, dashes and small letters are put right; everything else is only pointed at. `year`: this one. */
export function readVin(typed: string, year: number): VinReading {
  const text = typed.toUpperCase().replace(/[\s-]/g, "");
  const wrong = invalidPositions(text);
  if (text.length !== 17 || wrong.length > 0) return { text, wrong, digit: null, region: null, years: [] };
  const from = regionOf(text);
  const digit = checkValid(text) ? "right" : "other";
  return { text, wrong, digit, region: from, years: yearsOf(text, from, year) };
}

function regionOf(vin: string): Region | null {
  const named = region(vin.charAt(0)).toLowerCase().replace(" ", "-");
  return REGIONS.find((one) => one === named) ?? null;
}

/** Model years run ahead of the calendar by one at most. */
function yearsOf(vin: string, from: Region | null, year: number): number[] {
  const candidates = modelYearCandidates(vin.charAt(9)).filter((one) => one <= year + 1);
  if (from !== "north-america" || candidates.length === 0) return candidates.reverse();
  return [modelYearUsLight(vin.charAt(6), vin.charAt(9))].filter((one) => one <= year + 1);
}

/** A VIN in the text of a code; some codes put an I or other signs before it. Null when there is none. */
export function vinIn(text: string): string | null {
  const plain = text.toUpperCase();
  const runs = Array.from({ length: Math.max(0, plain.length - 16) }, (_, at) => plain.slice(at, at + 17));
  const whole = runs.filter((run) => /^[A-HJ-NPR-Z0-9]{17}$/.test(run));
  return whole.find(checkValid) ?? whole[0] ?? null;
}
