/** A report that was signed can be opened for as long as the card is there. */
import { expect, test } from "vitest";
import type { CardState } from "../../journal/types";
import { earlierRevisions } from "./earlier-reports";

const SIGNED = [1, 2].map((revision) => ({
  id: `0${revision}`,
  slot: "stage",
  kind: "signed-off",
  body: { revision },
}));
const BACK = { id: "03", slot: "stage", kind: "sent-back", body: { words: "Again.", slots: [] } };

function card(entries: object[], stage: object): CardState {
  return { entries, stage } as unknown as CardState;
}

test("a card that was sent back after a signature still leads to its reports, the newest first", () => {
  expect(earlierRevisions(card([...SIGNED, BACK], { is: "sent-back", entry: BACK }))).toEqual([2, 1]);
});

test("of a signed card those before the one that stands", () => {
  expect(earlierRevisions(card(SIGNED, { is: "signed", entry: SIGNED[1] }))).toEqual([1]);
});

test("a card never signed has none", () => {
  expect(earlierRevisions(card([BACK], { is: "sent-back", entry: BACK }))).toEqual([]);
});
