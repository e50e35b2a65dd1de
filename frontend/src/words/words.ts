/** Every text the app shows, by key, in the person's language; English stands in for what is not translated. */
import bay from "./en/bay.json";
import type card from "./en/card.json";
import common from "./en/common.json";
import sync from "./en/sync.json";

const atStart = { ...common, ...bay, ...sync };
type FlatKey = keyof typeof atStart | keyof typeof card;
/** A key without its form by number. */
export type Bare<K> = K extends `${infer Stem}.${Intl.LDMLPluralRule}` ? Stem : K;
/** A key of the catalogues; those with forms by number (`to-send.one`, `to-send.other`) are named without the form. */
export type Key = Bare<FlatKey>;
export type Values = Record<string, string | number>;
export type Catalogue = Partial<Record<string, string>>;

let english: Catalogue = atStart;
let locale = "en";
let translated: Catalogue = {};
let plurals = new Intl.PluralRules(locale);

/**
 * The text of `key` with its `{names}` filled in from `values`; `count` picks the form for that number.
 * A key without a text anywhere comes out as the words it is made of, never as a key.
 */
export function t(key: Key, values: Values = {}): string {
  return textOf(key, values);
}

/** Adds the English of a part that is loaded later, such as the desk's, which a phone does not carry to its first screen. */
export function addWords(section: Catalogue): void {
  english = { ...english, ...section };
}

/** The same for keys of a section added later. */
export function textOf(key: string, values: Values = {}): string {
  const text = find(key, values["count"]);
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = values[name];
    return typeof value === "number" ? formatNumber(value) : (value ?? whole);
  });
}

/** Shows everything in this language from now on. */
export function setLocale(next: string, catalogue: Catalogue): void {
  locale = next;
  translated = catalogue;
  plurals = new Intl.PluralRules(next);
}

export function currentLocale(): string {
  return locale;
}

/** A number as written in the person's language; `decimals` fixes the places after the comma. */
export function formatNumber(value: number, decimals?: number): string {
  const places =
    decimals === undefined ? {} : { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  return new Intl.NumberFormat(locale, { maximumFractionDigits: 10, ...places }).format(value);
}

export function formatDate(at: number | string): string {
  return new Intl.DateTimeFormat(locale, { dateStyle: "medium" }).format(new Date(at));
}

export function formatDateTime(at: number | string): string {
  return new Intl.DateTimeFormat(locale, { dateStyle: "medium", timeStyle: "short" }).format(new Date(at));
}

/** The time of day alone, as in 14:05. */
export function formatTime(at: number): string {
  return new Intl.DateTimeFormat(locale, { hour: "2-digit", minute: "2-digit" }).format(at);
}

/** "3 min ago": how long before `now` something happened, both in ms since 1970. */
export function formatAgo(at: number, now: number): string {
  const words = new Intl.RelativeTimeFormat(locale, { numeric: "auto", style: "short" });
  const seconds = Math.round((at - now) / 1_000);
  if (seconds > -60) return words.format(Math.min(seconds, 0), "second");
  if (seconds > -3_600) return words.format(Math.ceil(seconds / 60), "minute");
  if (seconds > -86_400) return words.format(Math.ceil(seconds / 3_600), "hour");
  return words.format(Math.ceil(seconds / 86_400), "day");
}

function find(key: string, count: string | number | undefined): string {
  const text = look(translated, key, count) ?? look(english, key, count);
  return text ?? wordsOf(key);
}

/** "bay.no-access" as "No access": better than nothing where a catalogue has a gap. */
function wordsOf(key: string): string {
  const words = key.replace(/^[a-z]+\./, "").replace(/[^\p{L}\p{N}]+/gu, " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function look(catalogue: Catalogue, key: string, count: string | number | undefined): string | undefined {
  if (typeof count !== "number") return catalogue[key];
  const form = catalogue === english ? englishPlurals.select(count) : plurals.select(count);
  return catalogue[`${key}.${form}`] ?? catalogue[`${key}.other`] ?? catalogue[key];
}

const englishPlurals = new Intl.PluralRules("en");
