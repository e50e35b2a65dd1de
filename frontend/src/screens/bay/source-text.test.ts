/** Promises of how a source is told. */
import { afterEach, expect, test } from "vitest";
import german from "../../words/de/card.json";
import { setLocale } from "../../words/words";
import "./card-words";
import { basisText, sourceAndBasis } from "./source-text";

afterEach(() => setLocale("en", {}));

test("a source that names its kind does not say it twice", () => {
  expect(sourceAndBasis("maker's data for this vehicle", "maker's data")).toBe(
    "maker's data for this vehicle",
  );
  expect(sourceAndBasis("common practice", "common practice")).toBe("common practice");
  expect(sourceAndBasis("49 CFR 570.7(b)", "published")).toBe("49 CFR 570.7(b) (published)");
});

test("what kind of source it is comes in the person's language, and once", () => {
  setLocale("de", german);
  const makers = "Herstellerangaben für dieses Fahrzeug";
  expect(sourceAndBasis(makers, "maker's data")).toBe(makers);
  expect(sourceAndBasis("maker's data of an older list", "maker's data")).toBe(
    "maker's data of an older list",
  );
  expect(sourceAndBasis("49 CFR 570.7(b)", "published")).toBe("49 CFR 570.7(b) (veröffentlicht)");
});

test("a kind the app does not know comes out as it is", () => {
  expect(basisText("hearsay")).toBe("hearsay");
});
