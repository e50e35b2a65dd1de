/**
 * The four bytes of service 01 PID 01: warning lamp, number of codes, which monitors exist and which are not complete.
 * Sources: SAE J1979 / ISO 15031-5; EPA420-R-01-015 (June 2001) under 40 CFR 85.2222 for how many may be open.
 */

import { MeasureError } from "../errors";

const CONTINUOUS = ["misfire", "fuel-system", "components"];
const SPARK = [
  ...["catalyst", "heated-catalyst", "evaporative", "secondary-air"],
  ...["ac-refrigerant", "o2-sensor", "o2-heater", "egr-vvt"],
];
/** Bits 0 to 7; a reserved bit that is set is named too, so that no open monitor goes unseen. */
const COMPRESSION = [
  ...["nmhc-catalyst", "nox-scr", "reserved-2", "boost-pressure"],
  ...["reserved-4", "exhaust-gas-sensor", "pm-filter", "egr-vvt"],
];

/** Whether the malfunction indicator is commanded on. */
export function lampOn(octets: readonly number[]): boolean {
  return four(octets)[0] >= 0x80;
}

/** The number of stored emission-related codes. */
export function codeCount(octets: readonly number[]): number {
  return four(octets)[0] & 0x7f;
}

/** `spark` or `compression`; it decides what the last two bytes mean. */
export function ignitionType(octets: readonly number[]): string {
  return four(octets)[1] & 8 ? "compression" : "spark";
}

/** The monitors the vehicle has. */
export function supported(octets: readonly number[]): string[] {
  return [...continuous(octets, 0x01), ...others(octets, four(octets)[2])];
}

/** The monitors the vehicle has that have not run to their end. */
export function incomplete(octets: readonly number[]): string[] {
  return [...continuous(octets, 0x11), ...incompleteOthers(octets)];
}

/** How many of the monitors that run once per trip are not complete. */
export function incompleteCount(octets: readonly number[]): number {
  return incompleteOthers(octets).length;
}

/** How many open monitors the guidance accepts: two for 1996 to 2000, then one. States may be stricter. */
export function epaAllowed(modelYear: number): number {
  if (modelYear < 1996) throw new MeasureError("outside-domain", "the guidance is for model years from 1996");
  return modelYear <= 2000 ? 2 : 1;
}

/** Whether the guidance accepts so many open monitors. */
export function epaAccepted(modelYear: number, incomplete: number): boolean {
  if (incomplete < 0) throw new MeasureError("outside-domain", "a number of monitors is not negative");
  return incomplete <= epaAllowed(modelYear);
}

function four(octets: readonly number[]): [number, number, number, number] {
  const [a, b, c, d, ...more] = octets;
  if (a === undefined || b === undefined || c === undefined || d === undefined || more.length > 0) {
    throw new MeasureError("outside-domain", "the answer of service 01 PID 01 has four bytes");
  }
  return [a, b, c, d];
}

/** The continuous monitors whose bits of the mask, moved to their place, are all set in byte B. */
function continuous(octets: readonly number[], mask: number): string[] {
  const flags = four(octets)[1];
  return CONTINUOUS.filter((_, place) => (flags & (mask << place)) === mask << place);
}

function others(octets: readonly number[], flags: number): string[] {
  const names = ignitionType(octets) === "compression" ? COMPRESSION : SPARK;
  return names.filter((_, place) => (flags >> place) & 1);
}

function incompleteOthers(octets: readonly number[]): string[] {
  const [, , has, open] = four(octets);
  return others(octets, has & open);
}
