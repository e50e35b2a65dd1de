/** Promises of how a source is told. */
import { afterEach, expect, test } from "vitest";
import german from "../../words/de/card.json";
import { setLocale } from "../../words/words";
import "./card-words";
import { basisText, sourceAndBasis, sourceText } from "./source-text";

afterEach(() => setLocale("en", {}));

test("a source that names its kind does not say it twice", () => {
  expect(sourceAndBasis("maker's data for this vehicle", "maker's data")).toBe(
    "maker's data for this vehicle",
  );
  expect(sourceAndBasis("common practice", "common practice")).toBe("common practice");
  expect(sourceAndBasis("49 CFR 570.7(b)", "published")).toBe("49 CFR 570.7(b) (published)");
});

test("what we say of a source is in the person's language, the name of a document as published", () => {
  setLocale("de", german);
  expect(sourceText("maker's data for this vehicle")).toBe("Herstellerangaben für dieses Fahrzeug");
  expect(sourceText("Directive 2014/45/EU, Annex I, 5.1.3(a)")).toBe(
    "Richtlinie 2014/45/EU, Anhang I, 5.1.3(a)",
  );
  expect(sourceAndBasis("49 CFR 570.7(b)", "published")).toBe("49 CFR 570.7(b) (veröffentlicht)");
});

test("a kind the app does not know comes out as it is", () => {
  expect(basisText("hearsay")).toBe("hearsay");
});
