/** The languages the app speaks, each with its own name, and which of them fits a person's wishes. */
import type { Catalogue } from "./words";

export const LANGUAGES = [
  { id: "en", name: "English" },
  { id: "de", name: "Deutsch" },
  { id: "es", name: "Español" },
  { id: "fr", name: "Français" },
] as const;
export type Language = (typeof LANGUAGES)[number]["id"];

export type Chosen = {
  language: Language;
  /** BCP 47 with the region where it is known, for numbers and dates: de-AT */
  locale: string;
};

const RIGHT_TO_LEFT = new Set(["ar", "fa", "he", "ps", "ur", "yi"]);

export function isLanguage(id: string | null): id is Language {
  return LANGUAGES.some((one) => one.id === id);
}

/** The language to speak: the one kept on this phone, else the first of the browser's that is spoken, else English. */
export function fitting(kept: string | null, wanted: readonly string[]): Chosen {
  const first = wanted.map(baseOf).find(isLanguage);
  const language = isLanguage(kept) ? kept : (first ?? "en");
  return { language, locale: wanted.find((one) => baseOf(one) === language) ?? language };
}

/** Which way the letters of a language run. */
export function directionOf(locale: string): "ltr" | "rtl" {
  return RIGHT_TO_LEFT.has(baseOf(locale)) ? "rtl" : "ltr";
}

/** The texts of a language; each comes in a file of its own. English is always there. */
export async function catalogueOf(language: Language): Promise<Catalogue> {
  switch (language) {
    case "en":
      return {};
    case "de":
      return (await import("./de/de")).default;
    case "es":
      return (await import("./es/es")).default;
    case "fr":
      return (await import("./fr/fr")).default;
  }
}

function baseOf(tag: string): string {
  return tag.split("-", 1)[0]?.toLowerCase() ?? "";
}
