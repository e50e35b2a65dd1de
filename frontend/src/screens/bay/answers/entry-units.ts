/** In which units a reading may be typed: the check's own first, then those that gauges on the market show. */
import { parseThirtySeconds, parseTyped } from "../../../capture/numberpad";
import { THIRTY_SECONDS } from "../figures";

type Measured = { unit: string; instruments: readonly string[] };
type Family = { units: readonly string[]; us: string };

/** Common practice: what gauges in metric and in US-unit workshops are marked in. */
const FAMILIES: readonly Family[] = [
  { units: ["mm", "[in_i]"], us: "[in_i]" },
  { units: ["kPa", "bar", "[psi]"], us: "[psi]" },
  { units: ["Cel", "[degF]"], us: "[degF]" },
  { units: ["N.m", "[ft_i].[lbf_av]"], us: "[ft_i].[lbf_av]" },
  { units: ["km", "[mi_i]"], us: "[mi_i]" },
  { units: ["L", "[qt_us]"], us: "[qt_us]" },
  { units: ["mL", "[foz_us]"], us: "[foz_us]" },
  { units: ["kg", "[lb_av]"], us: "[lb_av]" },
  { units: ["N", "[lbf_av]"], us: "[lbf_av]" },
  { units: ["V", "mV"], us: "V" },
  { units: ["Ohm", "mOhm"], us: "Ohm" },
  { units: ["mA", "A"], us: "mA" },
];
/** Tread gauges in US-unit workshops are marked in 32nds of an inch. */
const TREAD: Family = { units: ["mm", THIRTY_SECONDS], us: THIRTY_SECONDS };

/** The units to choose from; one alone when there is nothing to choose. */
export function entryUnits(spec: Measured): readonly string[] {
  const family = familyOf(spec);
  return family ? [spec.unit, ...family.units.filter((unit) => unit !== spec.unit)] : [spec.unit];
}

/** The unit to start with in this workshop. */
export function usualUnit(spec: Measured, shop: "metric" | "us"): string {
  return (shop === "us" ? familyOf(spec)?.us : undefined) ?? spec.unit;
}

function familyOf(spec: Measured): Family | undefined {
  if (spec.unit === "mm" && spec.instruments.some((id) => id.startsWith("tread-gauge"))) return TREAD;
  return FAMILIES.find((family) => family.units.includes(spec.unit));
}

/** The number typed in this unit, or null when it is none; 32nds are whole. */
export function readTyped(typed: string, unit: string): number | null {
  const read = unit === THIRTY_SECONDS ? parseThirtySeconds(typed) : parseTyped(typed);
  return read.ok ? read.value : null;
}
