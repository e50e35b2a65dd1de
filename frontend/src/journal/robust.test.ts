// @vitest-environment node
/** Whatever arrives, the judge answers; and whatever it takes, the card can be computed. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Book } from "../measure/book";
import { cardState } from "./card";
import { judge } from "./judge";
import { REFUSAL_CODES } from "./refusal";
import { checkSlot } from "./slots";
import { vectors } from "./testing";
import type { Answer, Entry } from "./types";

const { bases } = vectors<{ bases: Record<string, Record<string, unknown>> }>("journal-judge");
const { book, cases } = vectors<{ book: Book; cases: { entries: Entry[] }[] }>("journal-card");
const isKnown = (entry: unknown) => {
  const refusal = judge(entry);
  return refusal === null || REFUSAL_CODES.includes(refusal.code);
};

test("the judge answers whatever it is given", () => {
  fc.assert(fc.property(fc.jsonValue(), isKnown));
});

test("the judge answers when any part is something else", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(bases)),
      fc.nat(),
      fc.boolean(),
      fc.jsonValue(),
      (base, pick, inside, value) => {
        const raw: Record<string, unknown> = structuredClone(base);
        const body = raw.body;
        const holder = inside && typeof body === "object" && body !== null ? body : raw;
        const names = Object.keys(holder);
        Reflect.set(holder, names[pick % names.length] ?? "x", value);
        return isKnown(raw);
      },
    ),
    { numRuns: 500 },
  );
});

const slots = book.checklists.flatMap(({ id, checks }) =>
  checks.flatMap((check) =>
    check.at.flatMap((at) => [1, 2].map((round) => checkSlot(id, check.id, at, round))),
  ),
);
const number = fc.oneof(fc.double({ min: -1e15, max: 1e15, noNaN: true }), fc.constantFrom(0, 0.1, 1.6, 100));
const unit = fc.constantFrom("mm", "[in_i]", "kPa", "Cel", "s", "km", "not-a-unit", "kPa/min");
const instrument = fc.constantFrom("dial-0.01", "gauge-kpa", "inch-dial", "not-there");
const figures = { unit, instrument };
const samples = fc
  .array(fc.tuple(fc.nat(99), number), { minLength: 1, maxLength: 5 })
  .map((all) => all.sort((a, b) => a[0] - b[0]));
const answer: fc.Arbitrary<Answer> = fc.oneof(
  fc.record({ is: fc.constant("number" as const), value: number, ...figures }),
  fc.record({
    is: fc.constant("spread" as const),
    values: fc.dictionary(fc.constantFrom("a", "b"), number, { minKeys: 1 }),
    ...figures,
  }),
  fc.record({ is: fc.constant("run" as const), samples, ...figures }),
  fc.record({ is: fc.constant("choice" as const), choice: fc.constantFrom("strut", "cracked", "sine", "x") }),
  fc.record({ is: fc.constant("text" as const), words: fc.constant("x") }),
);

test("every card of entries that were taken can be computed", () => {
  const chosen = new Map(
    cases
      .flatMap(({ entries }) => entries.slice(0, 1))
      .filter(({ kind }) => kind === "checklist-chosen")
      .map((entry) => [entry.slot, entry]),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.constantFrom(...slots), answer), { maxLength: 30 }), (given) => {
      const answers = given.map(([slot, body], at): Entry => {
        const id = `019ab300-0000-7000-8000-${(1000 + at).toString(16).padStart(12, "0")}`;
        const envelope = { card: id, replaces: [], author: "a", device: "d", format: 1 };
        return { ...envelope, id, slot, kind: "answer", body, made_at: "2026-11-20T09:14:03.120Z" };
      });
      const entries = [...chosen.values(), ...answers];
      expect(entries.map(judge)).toEqual(entries.map(() => null));
      for (const { steps, open, done } of cardState(entries, book).checklists) {
        const asked = steps.filter(({ step }) => step.check.answer.kind !== "worked-out");
        const skipped = asked.filter(({ rounds }) => rounds[0]?.state === "not-asked");
        expect(open + done + skipped.length).toBe(asked.length);
      }
    }),
  );
});
