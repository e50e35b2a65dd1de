/** Promises of how an entry is put into words. */
import { expect, test } from "vitest";
import "../bay/card-words";
import type { CardState, Entry } from "../../journal/types";
import { entryWords, reasonText } from "./entry-words";

const EMPTY = { checklists: [] } as unknown as CardState;

function fact(value: number | string, unit?: string): Entry {
  return { kind: "fact", slot: "vehicle/x", body: unit ? { value, unit } : { value } } as unknown as Entry;
}

test("why something was not checked reads as one sentence", () => {
  expect(reasonText({ reason: "no-time", words: "when the wheel is off" })).toBe(
    "No time: when the wheel is off",
  );
  expect(reasonText({ reason: "other", words: "nobody knows" })).toBe("Other reason: nobody knows");
  expect(reasonText({ reason: "no-tool", words: "" })).toBe("No tool for it");
});

test("a fact with a unit is written as a person reads it", () => {
  expect(entryWords(fact(71_300, "[mi_i]"), EMPTY)).toBe("71,300 mi");
  expect(entryWords(fact(2017), EMPTY)).toBe("2017");
});
