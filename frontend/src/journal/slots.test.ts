// @vitest-environment node
/** Slots read the same on the phone and on the server. */
import { expect, test } from "vitest";
import {
  aboutCheck,
  checkSlot,
  findingSlotFor,
  KIND_STANDS_IN,
  mayStand,
  parseSlot,
  type Slot,
} from "./slots";
import { vectors } from "./testing";

type Vectors = {
  cases: { slot: string; parsed: Slot | null }[];
  about: { about: string; parsed: Slot | null }[];
  slots: string[];
  kinds: Record<string, string[]>;
};
const { cases, about, slots, kinds } = vectors<Vectors>("journal-slots");

test.each(cases)("the slot $slot gives its parts or nothing", ({ slot, parsed }) => {
  expect(parseSlot(slot)).toEqual(parsed);
});

test.each(about)("the check $about can be named without its round", (one) => {
  expect(aboutCheck(one.about)).toEqual(one.parsed);
});

test.each(Object.entries(kinds))("a %s stands in its slots and in no other", (kind, allowed) => {
  const fits = (slot: string) => {
    const parsed = parseSlot(slot);
    return parsed !== null && mayStand(kind, parsed);
  };
  expect(slots.filter(fits)).toEqual(allowed);
});

test("the vectors name every kind", () => {
  expect(new Set([...KIND_STANDS_IN.keys(), "unheard-of"])).toEqual(new Set(Object.keys(kinds)));
});

test("the slots that are made can be read", () => {
  const at = { checklist: "bearing-play", check: "rim", position: "rear-left" };
  expect(parseSlot(checkSlot("bearing-play", "rim", "rear-left", 2))).toEqual({
    is: "check",
    ...at,
    round: 2,
  });
  expect(parseSlot(findingSlotFor("bearing-play", "rim", "rear-left"))).toEqual({ is: "finding-at", ...at });
});
