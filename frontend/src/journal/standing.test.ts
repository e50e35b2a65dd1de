// @vitest-environment node
/** What stands depends on the set of entries alone, however phones hand them round. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { digest } from "./digest";
import { assertConverges, assertNothingComesBack } from "./laws";
import { disagreements, standingOf, type Replacing } from "./standing";
import { vectors } from "./testing";

type Case = {
  says: string;
  entries: Replacing[];
  standing: Record<string, string[]>;
  disagreements: string[];
};
const { cases } = vectors<{ cases: Case[] }>("journal-standing");

test.each(cases)("$says", ({ entries, standing, disagreements: expected }) => {
  const found = standingOf(entries);
  expect(Object.fromEntries([...found].map(([slot, stand]) => [slot, stand.map(({ id }) => id)]))).toEqual(
    standing,
  );
  expect(disagreements(found)).toEqual(expected);
  const even = (_: Replacing, place: number) => place % 2 === 0;
  assertConverges([entries.filter(even), entries.filter((one, place) => !even(one, place))], entries);
});

test.each(vectors<{ cases: { ids: string[]; digest: string }[] }>("journal-digest").cases)(
  "the digest is that of the sorted ids: $digest",
  ({ ids, digest: expected }) => {
    expect(digest(ids)).toBe(expected);
    expect(digest(ids.toReversed())).toBe(expected);
  },
);

const SLOTS = ["a/b/c/1", "a/b/c/2", "vehicle/vin"];
type Told = { heaps: Replacing[][]; written: Replacing[] };
type Act = { who: number; slot: number; whom: number; picks: number[]; times: number };

/** Each act writes an entry, or sends a batch to another phone: any part, any order, lost or again and again. */
function tell(phones: number, acts: readonly Act[]): Told {
  const heaps: Replacing[][] = Array.from({ length: phones }, () => []);
  const written: Replacing[] = [];
  acts.forEach(({ who, slot, whom, picks, times }, tick) => {
    const mine = heaps[who % phones] ?? [];
    const about = SLOTS[slot];
    if (about === undefined) {
      const batch = picks.flatMap((pick) => mine[pick % Math.max(1, mine.length)] ?? []);
      for (let time = 0; time < times; time++) heaps[whom % phones]?.push(...batch);
      return;
    }
    // ids in an order that has nothing to do with time, as from phones with wrong clocks
    const id = String((tick * 7919) % 10_007).padStart(5, "0");
    const seen = standingOf(mine).get(about) ?? [];
    const entry = { id, slot: about, replaces: seen.map((one) => one.id) };
    mine.push(entry);
    written.push(entry);
  });
  return { heaps, written };
}

const act = fc.record({
  who: fc.nat(3),
  slot: fc.nat(5),
  whom: fc.nat(3),
  picks: fc.array(fc.nat(30), { maxLength: 5 }),
  times: fc.nat(2),
});
const story = fc.tuple(fc.integer({ min: 2, max: 4 }), fc.array(act, { maxLength: 40 }));

test("phones that have everything agree whatever the way it came", () => {
  fc.assert(
    fc.property(story, ([phones, acts]) => {
      const { heaps, written } = tell(phones, acts);
      assertConverges(heaps, written);
    }),
  );
});

test("what was replaced never comes back", () => {
  fc.assert(
    fc.property(story, ([phones, acts]) => {
      tell(phones, acts).heaps.forEach(assertNothingComesBack);
    }),
  );
});

test("after loss a resend of everything in any order settles every phone alike", () => {
  fc.assert(
    fc.property(story, fc.infiniteStream(fc.nat()), ([phones, acts], keys) => {
      const { heaps, written } = tell(phones, acts);
      const expected = [...standingOf(written)];
      for (const heap of heaps) {
        const shuffled = written
          .map((entry) => ({ entry, key: keys.next().value ?? 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ entry }) => entry);
        expect([...standingOf([...heap, ...shuffled])]).toEqual(expected);
      }
    }),
  );
});
