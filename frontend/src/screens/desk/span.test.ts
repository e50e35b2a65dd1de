// @vitest-environment node
import { afterEach, expect, test } from "vitest";
import { setLocale } from "../../words/words";
import { spanText } from "./span";

const MINUTE_MS = 60_000;

afterEach(() => setLocale("en", {}));

test.each([
  [2.4, "2 minutes"],
  [59.4, "59 minutes"],
  [59.6, "1 hour"],
  [180, "3 hours"],
  [47 * 60, "47 hours"],
  [48 * 60, "2 days"],
  [29_808_000, "20,700 days"],
])("%s minutes are %s", (minutes, said) => {
  expect(spanText(minutes * MINUTE_MS)).toBe(said);
});

test("a span is said in the language of the screens", () => {
  setLocale("de", {});
  expect(spanText(180 * MINUTE_MS)).toBe("3 Stunden");
});
