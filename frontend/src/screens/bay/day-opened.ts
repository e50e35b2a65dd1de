/** The day a card was opened: its id tells the moment, the phone's calendar the day. */

/** When a UUIDv7 was made: its first 48 bits are ms since 1970 (RFC 9562). */
export function startOf(id: string): number {
  return Number.parseInt(id.replaceAll("-", "").slice(0, 12), 16);
}

/** The day on this phone's calendar, as in 2026-11-20. */
export function dayOf(ms: number): string {
  const at = new Date(ms);
  const two = (part: number) => String(part).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
