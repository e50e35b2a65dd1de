/** What the browser tells of the link, and whether photos and sounds may go over it. */
import { PHOTO_CHOICES, type PhotoChoice } from "../store/types";

export { PHOTO_CHOICES, type PhotoChoice };

/** `mobile`: it is paid by the byte, or the person told the browser to spare it. `slow`: a photo takes seconds and more. */
export type Link = "good" | "mobile" | "slow";
/** Why photos wait: for a link of that kind to end, because nobody knows what link it is, or for a word. */
export type PhotosWait = Exclude<Link, "good"> | "unknown" | "asked";

/** The part of the browser's NetworkInformation that is read here; no browser has all of it. */
export type Connection = { type?: unknown; saveData?: unknown; effectiveType?: unknown };

/** A telephone that lends its link over Bluetooth lends a mobile one. */
const MOBILE: unknown[] = ["cellular", "wimax", "bluetooth"];
/** As browsers name them by what they measure: at most 700 kbit/s, so a photo of 300 kB takes more than three seconds. */
const SLOW: unknown[] = ["slow-2g", "2g", "3g"];

/** The link as far as the browser tells; null where it says nothing. */
export function linkOf(connection: Connection | undefined): Link | null {
  const { type, saveData, effectiveType } = connection ?? {};
  if (MOBILE.includes(type) || saveData === true) return "mobile";
  if (SLOW.includes(effectiveType)) return "slow";
  return type === undefined && effectiveType === undefined ? null : "good";
}

/**
 * Why photos wait over this link by what was chosen, or null when they may go.
 * A link nobody knows does not count as a good one: bytes that somebody pays for are not sent on a guess.
 */
export function whyPhotosWait(choice: PhotoChoice, link: Link | null): PhotosWait | null {
  if (choice === "always") return null;
  if (choice === "asked") return "asked";
  return link === null ? "unknown" : link === "good" ? null : link;
}

/** Calls back when the browser says that the link is another one. */
export function watchLink(connection: Partial<EventTarget> | undefined, changed: () => void): void {
  connection?.addEventListener?.("change", changed);
}

/** The browser's own, where it has one. */
export function browserConnection(): (Connection & Partial<EventTarget>) | undefined {
  return (navigator as Navigator & { connection?: Connection & Partial<EventTarget> }).connection;
}
