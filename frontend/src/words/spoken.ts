/** The language now spoken on this phone: found at the start, changed by the person, remembered here. */
import { signal, type ReadonlySignal } from "@preact/signals";
import { catalogueOf, directionOf, fitting, type Chosen, type Language } from "./languages";
import { setLocale, type Catalogue } from "./words";

const KEPT = "baycard-language";

/** What of the browser the language touches. */
export type Surroundings = {
  /** null where the browser forbids it */
  memory: Pick<Storage, "getItem" | "setItem"> | null;
  /** what the person told the browser to prefer, best first, as in navigator.languages */
  wanted: readonly string[];
  /** the page's root element */
  root: { lang: string; dir: string };
  load: (language: Language) => Promise<Catalogue>;
};

const now = signal<Language>("en");
/** Whoever shows texts draws anew when this changes. */
export const spoken: ReadonlySignal<Language> = now;

const wished = signal<Language>("en");
/** The language that was chosen, known at once; its texts may still be on their way. */
export const chosen: ReadonlySignal<Language> = wished;

/** Speaks the language that was kept here or that the browser prefers. Gives false when its texts cannot be had. */
export async function startSpeaking(around: Surroundings): Promise<boolean> {
  return speak(fitting(keptIn(around), around.wanted), around);
}

/** Speaks this language from now on, and at the next start. Gives false when its texts cannot be had yet. */
export async function chooseLanguage(language: Language, around: Surroundings): Promise<boolean> {
  try {
    around.memory?.setItem(KEPT, language);
  } catch {
    // a full or forbidden memory: the choice holds until the app is closed
  }
  return speak(fitting(language, around.wanted), around);
}

/** What a browser's page offers for it. */
export function surroundings(): Surroundings {
  return {
    memory: localMemory(),
    wanted: navigator.languages,
    root: document.documentElement,
    load: catalogueOf,
  };
}

let latest: Chosen | null = null;

async function speak(choice: Chosen, around: Surroundings): Promise<boolean> {
  latest = choice;
  wished.value = choice.language;
  const catalogue = await around.load(choice.language).catch(() => null);
  if (catalogue === null) return false;
  // a second choice made while the first was loading is the one that counts
  if (latest !== choice) return true;
  setLocale(choice.locale, catalogue);
  around.root.lang = choice.language;
  around.root.dir = directionOf(choice.locale);
  now.value = choice.language;
  return true;
}

function keptIn(around: Surroundings): string | null {
  try {
    return around.memory?.getItem(KEPT) ?? null;
  } catch {
    return null;
  }
}

function localMemory(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
