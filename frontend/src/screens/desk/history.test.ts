// @vitest-environment node
import { describe, expect, it } from "vitest";
import type { CardState, Entry } from "../../journal/types";
import { doubtOf, historyOf } from "./history";

const NOW = Date.parse("2026-11-20T12:00:00Z");

function entry(id: string, made_at: string, more: object = {}): Entry {
  const body = { value: id };
  return {
    id,
    made_at,
    slot: "vehicle/plate",
    kind: "fact",
    body,
    replaces: [],
    ...more,
  } as unknown as Entry;
}

function cardOf(...entries: Entry[]): CardState {
  return { entries } as unknown as CardState;
}

function signedAt(made_at: string, arrival: number): Entry {
  return entry("9", made_at, { slot: "stage", kind: "signed-off", body: { arrival } });
}

describe("the history of a slot", () => {
  it("holds every entry the slot ever had, oldest first, and none of another slot", () => {
    const first = entry("1", "2026-11-20T09:00:00Z");
    const second = entry("2", "2026-11-20T10:00:00Z", { replaces: ["1"] });
    const other = entry("3", "2026-11-20T10:00:00Z", { slot: "vehicle/vin" });
    expect(historyOf(cardOf(second, other, first), "vehicle/plate")).toEqual([first, second]);
    expect(historyOf(cardOf(first), "vehicle/year")).toEqual([]);
  });
});

describe("a time in doubt", () => {
  it("is one that has not come yet, beyond what two clocks may differ", () => {
    const soon = entry("1", "2026-11-20T12:01:00Z");
    const later = entry("2", "2026-11-20T12:03:00Z");
    const card = cardOf(soon, later);
    expect(doubtOf(soon, card, NOW)).toBeNull();
    expect(doubtOf(later, card, NOW)).toBe("ahead");
  });

  it("is one before the entry it replaces", () => {
    const first = entry("1", "2026-11-20T10:00:00Z");
    const second = entry("2", "2026-11-20T09:00:00Z", { replaces: ["1"] });
    expect(doubtOf(second, cardOf(first, second), NOW)).toBe("before-replaced");
    expect(doubtOf(first, cardOf(first, second), NOW)).toBeNull();
  });

  it("is one after the signature that holds it, by the server's clock", () => {
    const held = entry("1", "2026-11-20T11:00:00Z", { arrival: 4 });
    const added = entry("2", "2026-11-20T11:00:00Z", { arrival: 7 });
    const card = cardOf(held, added, signedAt("2026-11-20T10:00:00Z", 5));
    expect(doubtOf(held, card, NOW)).toBe("ahead");
    expect(doubtOf(added, card, NOW)).toBeNull();
  });
});
