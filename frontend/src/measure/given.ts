/** Taking checked inputs out of what a method was given, for the functions that are not arithmetic. */

import { MeasureError } from "./errors";

/** Inputs by name, in their declared units. */
export type Given = Readonly<Record<string, GivenValue>>;
export type GivenValue = number | string | readonly (number | string)[];
/** What a method may give. */
export type Answer =
  number | boolean | string | readonly number[] | readonly string[] | Readonly<Record<string, unknown>>;

/** One number. Throws MeasureError `missing-input`, `not-a-number`. */
export function amount(given: Given, name: string): number {
  const value = valueOf(given, name);
  if (typeof value !== "number") throw new MeasureError("not-a-number", `${name} needs a number`);
  return value;
}

/** One number, or null when it was left out. */
export function optional(given: Given, name: string): number | null {
  return Object.hasOwn(given, name) ? amount(given, name) : null;
}

/** One whole number. Throws MeasureError also `out-of-range`. */
export function whole(given: Given, name: string): number {
  const value = amount(given, name);
  if (!Number.isInteger(value)) throw new MeasureError("out-of-range", `${name} is a whole number`);
  return value;
}

/** One text, without spaces round it. Throws MeasureError `missing-input`, `wrong-unit`. */
export function text(given: Given, name: string): string {
  const value = valueOf(given, name);
  if (typeof value !== "string") throw new MeasureError("wrong-unit", `${name} needs text`);
  return value.trim();
}

/** A list of texts. */
export function texts(given: Given, name: string): string[] {
  const value = valueOf(given, name);
  const found: string[] = [];
  if (typeof value === "number" || typeof value === "string") {
    throw new MeasureError("wrong-unit", `${name} needs a list of texts`);
  }
  for (const item of value) {
    if (typeof item !== "string") throw new MeasureError("wrong-unit", `${name} needs a list of texts`);
    found.push(item.trim());
  }
  return found;
}

/** Bytes written in hexadecimal, spaces between them allowed. */
export function octets(given: Given, name: string): number[] {
  const digits = text(given, name).replace(/[ \t]/g, "");
  if (!/^([0-9A-Fa-f]{2})+$/.test(digits)) {
    throw new MeasureError("outside-domain", `${name} needs bytes in hexadecimal, two digits each`);
  }
  return (digits.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
}

function valueOf(given: Given, name: string): GivenValue {
  const value = Object.hasOwn(given, name) ? given[name] : undefined;
  if (value === undefined) throw new MeasureError("missing-input", `${name} is needed`);
  return value;
}
