/**
 * What is written on a tyre: size, load index, speed symbol, date of making.
 * Sources: ISO 4000-1 and UN R30 (size, load index, speed symbol; from tables that agree, the standards not seen),
 * 49 CFR 574.5 and 64 FR 36807 (date code). Load indices above 119 and speed symbols below Q are from memory.
 */

import { MeasureError } from "../errors";

const FIRST_INDEX = 60;
const LOADS_KG = [
  ...[250, 257, 265, 272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437],
  ...[450, 462, 475, 487, 500, 515, 530, 545, 560, 580, 600, 615, 630, 650, 670, 690, 710, 730, 750, 775],
  ...[
    800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320,
    1360,
  ],
  ...[1400, 1450, 1500, 1550, 1600, 1650, 1700],
];
const SPEEDS_KMH = new Map<string, number>([
  ...([
    ["L", 120],
    ["M", 130],
    ["N", 140],
    ["P", 150],
  ] as const),
  ...([
    ["Q", 160],
    ["R", 170],
    ["S", 180],
    ["T", 190],
    ["U", 200],
    ["H", 210],
    ["V", 240],
    ["W", 270],
    ["Y", 300],
  ] as const),
]);
const FIRST_DATED = 1971;
/** Three digits were used until 2 July 2000. */
const WEEKS_OF_2000 = 26;
const SIZE = new RegExp(
  "^(?:P|LT)?(?<width>[1-9][0-9]{2})(?:/(?<aspect>[1-9][0-9]))?Z?(?<build>[RDB-])(?<rim>[1-9][0-9](?:\\.5)?)(?<van>C)?" +
    "(?:(?<load>[0-9]{2,3})(?:/(?<twin>[0-9]{2,3}))?(?<speed>[L-NP-UHVWY]))?(?:XL)?$",
);

/** A metric size: width in mm, height in per cent of it, rim in inches; null for what is not written. */
export type TyreSize = {
  width_mm: number;
  aspect_percent: number | null;
  build: string;
  rim_in: number;
  light_truck: boolean;
  load_index: number | null;
  load_index_twin: number | null;
  speed_symbol: string | null;
};

/**
 * The parts of a size such as `205/55 R16 91V` or `235/65 R16C 115/113R`.
 * Throws MeasureError `outside-domain` for anything else, flotation and metric-rim sizes among them.
 */
export function size(designation: string): TyreSize {
  const written = designation.toUpperCase().replace(/[ \t()]/g, "");
  const parts = SIZE.exec(written)?.groups;
  if (!parts) throw new MeasureError("outside-domain", "write the size as 205/55 R16 91V");
  return {
    width_mm: Number(parts["width"]),
    aspect_percent: wholeNumber(parts["aspect"]),
    build: parts["build"] === "R" || parts["build"] === "B" ? parts["build"] : "D",
    rim_in: Number(parts["rim"]),
    light_truck: parts["van"] !== undefined || written.startsWith("LT"),
    load_index: wholeNumber(parts["load"]),
    load_index_twin: wholeNumber(parts["twin"]),
    speed_symbol: parts["speed"] ?? null,
  };
}

/** One part of a size, by its name in TyreSize. Throws MeasureError `outside-domain` when it is not written. */
export function sizePart(designation: string, part: keyof TyreSize): number | string {
  const value = size(designation)[part];
  if (value === null || typeof value === "boolean") {
    throw new MeasureError("outside-domain", `${designation} does not say its ${part.split("_")[0] ?? part}`);
  }
  return value;
}

/** The load one tyre may carry, by the table. Throws MeasureError `outside-domain` outside 60 to 126. */
export function loadKg(loadIndex: number): number {
  const load = LOADS_KG[loadIndex - FIRST_INDEX];
  if (load === undefined) {
    const last = FIRST_INDEX + LOADS_KG.length - 1;
    throw new MeasureError("outside-domain", `load indices from ${FIRST_INDEX} to ${last} are known`);
  }
  return load;
}

/** The load that so many tyres of one index may carry together. */
export function axleCapacityKg(loadIndex: number, tyres: number): number {
  if (tyres < 1) throw new MeasureError("outside-domain", "an axle has at least one tyre");
  return loadKg(loadIndex) * tyres;
}

/** The load of an axle in kg as a share of what its tyres may carry together; above 100 they are overloaded. */
export function loadSharePercent(loadIndex: number, tyres: number, axleLoad: number): number {
  return (100 * axleLoad) / axleCapacityKg(loadIndex, tyres);
}

/** The speed of a symbol; H stands between U and V. */
export function speedKmh(symbol: string): number {
  const speed = SPEEDS_KMH.get(symbol.toUpperCase());
  if (speed === undefined) {
    throw new MeasureError("outside-domain", `speed symbols are ${[...SPEEDS_KMH.keys()].join(" ")}`);
  }
  return speed;
}

/**
 * Week and possible years of the last digits of the tyre's identification number. Four digits: week and year. Three:
 * week and last digit of a year before July 2000, the decade cannot be told.
 */
export function date(code: string): { week: number; years: number[] } {
  const week = Number(code.slice(0, 2));
  if (!/^[0-9]{3,4}$/.test(code) || week < 1 || week > 53) {
    throw new MeasureError("outside-domain", "give the three or four digits of week and year");
  }
  const year = Number(code.slice(2));
  if (code.length === 4) return { week, years: [2000 + year] };
  const last = week <= WEEKS_OF_2000 ? 2000 : 1999;
  const years = [1970, 1980, 1990, 2000].map((decade) => decade + year);
  return { week, years: years.filter((one) => one >= FIRST_DATED && one <= last) };
}

function wholeNumber(digits: string | undefined): number | null {
  return digits === undefined ? null : Number(digits);
}
