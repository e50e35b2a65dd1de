/** How long something lasts, in words. */
import { currentLocale } from "../../words/words";

/** "3 hours": ms in the largest unit that fits, rounded. */
export function spanText(ms: number): string {
  const [count, unit] = inUnit(ms / 60_000);
  const style = { style: "unit", unit, unitDisplay: "long", maximumFractionDigits: 0 } as const;
  return new Intl.NumberFormat(currentLocale(), style).format(count);
}

function inUnit(minutes: number): [number, "minute" | "hour" | "day"] {
  if (minutes < 59.5) return [minutes, "minute"];
  return minutes < 47.5 * 60 ? [minutes / 60, "hour"] : [minutes / 1440, "day"];
}
