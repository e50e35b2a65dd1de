// @vitest-environment node
/** A card's state follows from its entries and the book alone, the same on the phone and on the server. */
import { expect, test } from "vitest";
import type { Book } from "../measure/book";
import { cardState } from "./card";
import { judge } from "./judge";
import { project } from "./projection";
import { steps } from "./steps";
import { vectors } from "./testing";
import type { Entry } from "./types";
import { outcomeOf } from "./verdicts";

type Case = { says: string; entries: Entry[]; expected: Record<string, unknown> };
const { book, cases } = vectors<{ book: Book; cases: Case[] }>("journal-card");
const asFound = cases.find(({ says }) => says === "a whole walk as found")?.entries ?? [];

function expectClose(found: unknown, expected: unknown, path: string): void {
  if (typeof expected === "number" && typeof found === "number") {
    const most = Math.max(1e-12, 1e-9 * Math.abs(expected));
    expect(Math.abs(found - expected), `${path}: ${found} is not ${expected}`).toBeLessThanOrEqual(most);
  } else if (
    typeof expected === "object" &&
    expected !== null &&
    typeof found === "object" &&
    found !== null
  ) {
    expect(Object.keys(found).sort(), path).toEqual(Object.keys(expected).sort());
    const other = new Map(Object.entries(found));
    for (const [key, value] of Object.entries(expected)) expectClose(other.get(key), value, `${path}.${key}`);
  } else expect(found, path).toEqual(expected);
}

test.each(cases)("$says: the state is that of the vectors", ({ entries, expected }) => {
  expectClose(project(cardState(entries, book)), expected, "card");
});

test.each(cases)("$says: the order of the entries does not matter", ({ entries }) => {
  const other = [...entries.filter((_, at) => at % 2), ...entries.toReversed(), ...entries.slice(0, 3)];
  expect(project(cardState(other, book))).toEqual(project(cardState(entries, book)));
});

test.each(cases)("$says: every entry would be taken", ({ entries }) => {
  expect(entries.map(judge)).toEqual(entries.map(() => null));
});

test("one outcome alone is that of the card", () => {
  const state = cardState(asFound, book);
  const walk = state.checklists[0]?.checklist;
  if (!walk) throw new Error("the walk is not chosen");
  const alone = steps(walk, book).map((step) => outcomeOf(step, 1, state.standing, walk, book));
  expect(alone).toEqual(state.checklists[0]?.steps.map(({ rounds }) => rounds[0]));
});

test("a version is looked up where the caller says", () => {
  const bare = { ...book, checklists: [] };
  const elsewhere = (id: string, version: number) =>
    book.checklists.find((one) => one.id === id && one.version === version);
  expect(cardState(asFound, bare, elsewhere).checklists).toHaveLength(1);
  expect(cardState(asFound, bare).missingChecklists).toEqual([{ id: "walk", version: 2 }]);
});

test("a state kept from before is not given once anything it rests on has changed", () => {
  for (let count = 0; count <= asFound.length; count++) {
    const some = asFound.slice(0, count);
    expect(project(cardState(some, book))).toEqual(project(cardState(some, { ...book })));
  }
  const [fact] = asFound.filter(({ slot }) => slot === "vehicle/maker/rise-most");
  if (!fact) throw new Error("the maker's figure is in the vectors");
  const doubted: Entry = { ...fact, id: `${fact.id}x`, kind: "retraction", body: {} };
  const known = cardState(asFound, book).checklists;
  expect(cardState(asFound, book).checklists).toEqual(known);
  expect(cardState([...asFound, doubted], book).checklists).not.toEqual(known);
});

test("an empty card has a state", () => {
  const state = cardState([], book);
  expect(state).toMatchObject({ card: "", checklists: [], round: 1, stage: { is: "walking" } });
});
