// @vitest-environment node
import { afterEach, describe, expect, test } from "vitest";
import { formatAgo, formatNumber, setLocale, t } from "./words";

afterEach(() => setLocale("en", {}));

describe("a text", () => {
  test("has its values filled in", () => {
    expect(t("sync-photo-progress", { done: 120, total: 300 })).toBe("120 of 300 kB");
  });

  test("takes the form that fits the number", () => {
    expect(t("sync-photos-to-send", { count: 1 })).toBe("1 photo to send");
    expect(t("sync-photos-to-send", { count: 2 })).toBe("2 photos to send");
  });

  test("keeps a name for which there is no value, so that the gap is seen", () => {
    expect(t("sync-oldest")).toBe("oldest from {ago}");
  });

  test("comes in the other language where it is translated, and in English where not", () => {
    setLocale("de", { "sync-all-sent": "Alles gesendet" });
    expect(t("sync-all-sent")).toBe("Alles gesendet");
    expect(t("sync-try-now")).toBe("Try now");
  });

  test("uses the other language's own rules for number", () => {
    const forms = { one: "{count} foto", few: "{count} fotky", other: "{count} fotek" };
    const catalogue = Object.entries(forms).map(([form, text]) => [`sync-photos-to-send.${form}`, text]);
    setLocale("cs", Object.fromEntries(catalogue));
    expect([1, 3, 5].map((count) => t("sync-photos-to-send", { count }))).toEqual([
      "1 foto",
      "3 fotky",
      "5 fotek",
    ]);
  });

  test("that falls back to English follows English rules for number", () => {
    setLocale("fr", {});
    expect(t("sync-photos-to-send", { count: 0 })).toBe("0 photos to send");
  });
});

test("numbers are written as the language writes them", () => {
  expect(formatNumber(164_200)).toBe("164,200");
  setLocale("de", {});
  expect(formatNumber(0.1, 2)).toBe("0,10");
});

test.each([
  [0, "now"],
  [-5_000, "5 sec. ago"],
  [-90_000, "1 min. ago"],
  [-7_300_000, "2 hr. ago"],
  [-200_000_000, "2 days ago"],
])("%i ms from now is %s", (ms, said) => {
  expect(formatAgo(1_000_000_000 + ms, 1_000_000_000)).toBe(said);
});

test("digits are those of the language", () => {
  setLocale("ar-EG", {});
  expect(formatNumber(164_200.5)).toBe("١٦٤٬٢٠٠٫٥");
});
