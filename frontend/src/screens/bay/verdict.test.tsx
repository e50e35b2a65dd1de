/** A reading too close to call says what is still to be done about it. */
import { afterEach, expect, it } from "vitest";
import type { Book, Instrument } from "../../measure/book";
import { BOOK, CARD, CHECKLIST, makeBay, PLAY, show, takeAway, until, walkedCard } from "./testing";
import type { OpenCard } from "./open-card";
import { Verdict } from "./verdict";

afterEach(takeAway);

const SLOT = "wheels/play/front-left/1";

function bookWith(instrument: Partial<Instrument>): Book {
  const dial = {
    id: "dial",
    title: "Dial",
    unit: "mm",
    resolution: 0.01,
    quantity: "length",
    source: "test",
  };
  const play = { ...PLAY, answer: { ...PLAY.answer, instruments: ["dial"] } } as typeof PLAY;
  return {
    ...BOOK,
    instruments: { dial: { ...dial, ...instrument } },
    checklists: [{ ...CHECKLIST, checks: [play] }],
  };
}

function Shown({ card }: { card: OpenCard }) {
  const state = card.state.value;
  const step = state?.checklists[0]?.steps[0];
  const outcome = step?.rounds[0];
  return state && step && outcome ? (
    <Verdict {...{ card, state, step, outcome }} round={1} onKept={() => undefined} />
  ) : null;
}

async function told(instrument: Partial<Instrument>, repeats: number[], value: number): Promise<string> {
  const bay = makeBay(bookWith(instrument));
  const card = await walkedCard(bay);
  expect(card.id).toBe(CARD);
  await card.keep("answer", SLOT, { is: "number", value, unit: "mm", repeats, instrument: "dial" });
  const page = show(bay, <Shown card={card} />);
  await until(() => page.textContent.includes("leaves open"));
  card.close();
  return page.textContent;
}

it("counts the readings that are still to be taken, not those taken already", async () => {
  expect(await told({}, [0.24, 0.54, 0.43, 0.39], 0.4)).toContain("3 more readings would settle it.");
});

it("says so when neither more readings nor a tool of the check would settle it", async () => {
  expect(await told({ limit_of_error: 0.2 }, [0.45], 0.45)).toContain("use a finer one");
});
