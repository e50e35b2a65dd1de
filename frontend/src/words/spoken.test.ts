// @vitest-environment node
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { catalogueOf, directionOf, fitting } from "./languages";
import { chooseLanguage, chosen, spoken, startSpeaking, type Surroundings } from "./spoken";
import { currentLocale, formatNumber, setLocale, t, textOf } from "./words";

let kept: Map<string, string>;

beforeEach(() => {
  kept = new Map();
});
afterEach(() => setLocale("en", {}));

function around(wanted: string[], more: Partial<Surroundings> = {}): Surroundings {
  return {
    memory: { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) },
    wanted,
    root: { lang: "en", dir: "" },
    load: catalogueOf,
    ...more,
  };
}

describe("the language of a phone", () => {
  test.each([
    [["de-AT", "en"], "de", "de-AT"],
    [["pl", "fr-CA", "de"], "fr", "fr-CA"],
    [["ES"], "es", "ES"],
    [["pl", "cs"], "en", "en"],
    [[], "en", "en"],
  ])("is the first of %j that is spoken here", (wanted, language, locale) => {
    expect(fitting(null, wanted)).toEqual({ language, locale });
  });

  test("is the one that was chosen, whatever the browser prefers", () => {
    expect(fitting("fr", ["de-AT"])).toEqual({ language: "fr", locale: "fr" });
    expect(fitting("klingon", ["de-AT"]).language).toBe("de");
  });

  test("is on the page's root, in its texts and in its numbers", async () => {
    const page = around(["de-AT"]);
    expect(await startSpeaking(page)).toBe(true);
    expect(page.root).toEqual({ lang: "de", dir: "ltr" });
    expect([spoken.value, t("bay.sign-in"), textOf("desk.sign-off")]).toEqual([
      "de",
      "Anmelden",
      "Abzeichnen",
    ]);
    expect(formatNumber(2.5)).toBe("2,5");
  });

  test("is known before its texts have come", async () => {
    const speaking = startSpeaking(around(["fr-CA"]));
    expect(chosen.value).toBe("fr");
    await speaking;
  });

  test("is remembered until the next start", async () => {
    await chooseLanguage("es", around(["de"]));
    await startSpeaking(around(["de"]));
    expect(t("bay.cards")).toBe("Fichas");
  });

  test("stays as it was when the texts cannot be had, and is tried again at the next start", async () => {
    const failing = around(["en"], { load: () => Promise.reject(new Error("no network")) });
    await startSpeaking(around(["en"]));
    expect(await chooseLanguage("fr", failing)).toBe(false);
    expect([t("bay.cards"), currentLocale()]).toEqual(["Cards", "en"]);
    await startSpeaking(around(["en"]));
    expect(t("bay.cards")).toBe("Fiches");
  });

  test("is the one chosen last, though an earlier choice loads longer", async () => {
    let arrive = () => {};
    const slow = around(["en"], {
      load: async (language) => {
        await new Promise<void>((resolve) => (arrive = resolve));
        return catalogueOf(language);
      },
    });
    const first = chooseLanguage("de", slow);
    await chooseLanguage("fr", around(["en"]));
    arrive();
    await first;
    expect(t("bay.cards")).toBe("Fiches");
  });

  test("can be chosen where the browser allows no memory", async () => {
    const forbidden = {
      getItem: () => null,
      setItem: () => {
        throw new DOMException("denied");
      },
    };
    expect(await chooseLanguage("de", around(["en"], { memory: forbidden }))).toBe(true);
    expect(t("bay.cards")).toBe("Karten");
  });
});

test("letters run from the right where they do", () => {
  expect([directionOf("ar-EG"), directionOf("he"), directionOf("de")]).toEqual(["rtl", "rtl", "ltr"]);
});

test("a key without any text comes out as words, never as a key", () => {
  expect(textOf("bay.reason-not-yet-written")).toBe("Reason not yet written");
  expect(textOf("desk.fact-vehicle/colour")).toBe("Fact vehicle colour");
});
