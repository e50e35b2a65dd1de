/**
 * How old a tyre is on a date, from the week and year on its side wall.
 * Source: 49 CFR 574.5: four digits since July 2000; week 01 is the first full week of the year, Sunday to Saturday.
 */

import { MeasureError } from "../errors";
import * as tyre from "./tyre";

const DAYS_OF_YEAR = 365.2425;
const DAY_MS = 86_400_000;
const DAY = /^([0-9]{4})-([0-9]{2})-([0-9]{2})/;

/**
 * The age in years on a date written as 2026-11-20, counted from the Sunday of the week of making.
 * Throws MeasureError `outside-domain` for three digits (the decade cannot be told), and for a week yet to come.
 */
export function ageYears(code: string, on: string): number {
  if (code.length !== 4) {
    const says = "give the four digits of week and year; three digits are from before 2000";
    throw new MeasureError("outside-domain", says);
  }
  tyre.date(code);
  const days = (day(on) - firstDay(Number(code.slice(0, 2)), 2000 + Number(code.slice(2)))) / DAY_MS;
  if (days < 0) {
    throw new MeasureError("outside-domain", "the tyre would be made after that date; read the code again");
  }
  return days / DAYS_OF_YEAR;
}

/** The same for a code typed in as a number, without its leading nought. */
export function ageOfNumber(made: number, on: string): number {
  return ageYears(String(made).padStart(4, "0"), on);
}

function firstDay(week: number, year: number): number {
  const newYear = new Date(Date.UTC(year, 0, 1));
  return newYear.getTime() + (((7 - newYear.getUTCDay()) % 7) + 7 * (week - 1)) * DAY_MS;
}

/** The day; a time behind it is not read. */
function day(text: string): number {
  const [, year = "", month = "", dayOfMonth = ""] = DAY.exec(text) ?? [];
  const found = new Date(`${year}-${month}-${dayOfMonth}T00:00:00Z`);
  if (Number.isNaN(found.getTime()) || found.getUTCDate() !== Number(dayOfMonth) || year === "0000") {
    throw new MeasureError("outside-domain", "write the date as 2026-11-20");
  }
  return found.getTime();
}
