/** Promises of the walk's order. */
import { describe, expect, it } from "vitest";
import type { CardState } from "../../journal/types";
import { EVERYTHING } from "../route";
import { BOOK, makeBay, walkedCard } from "./testing";
import { findStep, isLeft, nextLeft, stopsOf, walkSteps } from "./walk-order";

async function state(
  after: (card: Awaited<ReturnType<typeof walkedCard>>) => Promise<unknown>,
): Promise<CardState> {
  const card = await walkedCard(makeBay());
  await after(card);
  const now = card.state.value;
  if (!now) throw new Error("the card is not read");
  return now;
}
const names = (now: CardState, round: number) =>
  walkSteps(now, BOOK.stations, round, EVERYTHING).map(({ step }) => `${step.check.id}/${step.place.id}`);
const FINDING = {
  title: "Play",
  plain: "",
  grade: "major",
  about: "wheels/rock/front-right",
  place: "front-right",
  complaints: [],
  photos: [],
  proposed: null,
  note: "",
} as const;

describe("the walk", () => {
  it("does everything at one wheel before it goes on to the next", async () => {
    const now = await state(() => Promise.resolve());
    expect(names(now, 1)).toEqual(["rock/front-left", "play/front-left", "rock/front-right"]);
  });

  it("counts at each station what is left there", async () => {
    const now = await state((card) =>
      card.keep("answer", "wheels/play/front-left/1", { is: "number", value: 0.1, unit: "mm" }),
    );
    const stops = stopsOf(walkSteps(now, BOOK.stations, 1, EVERYTHING), 1);
    expect(stops.map((stop) => [stop.station.id, stop.left])).toEqual([
      ["left", 1],
      ["right", 1],
    ]);
  });

  it("goes to the next open check and comes round to those passed over", async () => {
    const now = await state((card) =>
      card.keep("answer", "wheels/rock/front-right/1", { is: "choice", choice: "none" }),
    );
    const steps = walkSteps(now, BOOK.stations, 1, EVERYTHING);
    const last = findStep(steps, { checklist: "wheels", check: "rock", place: "front-right" });
    expect([nextLeft(steps, 1, 1), nextLeft(steps, 1, last)]).toEqual([1, 0]);
  });

  it("measures again what was measured where something was repaired", async () => {
    const finding = {
      ...FINDING,
      about: "wheels/rock/front-left",
      place: "front-left",
      complaints: [],
      photos: [],
    };
    const now = await state(async (card) => {
      await card.keep("answer", "wheels/play/front-left/1", { is: "number", value: 0.4, unit: "mm" });
      await card.keep("finding", "finding/at/wheels/rock/front-left", finding);
      const slot = `work/${card.newId()}`;
      const work = { findings: ["finding/at/wheels/rock/front-left"], words: "Hub renewed", parts: [] };
      await card.keep("work-done", slot, { ...work, torque: "", improvised: "" });
    });
    expect(names(now, 2)).toEqual(["rock/front-left", "play/front-left"]);
  });

  it("counts a check that could not be done as done with", async () => {
    const slot = "wheels/rock/front-left/1";
    const now = await state((card) => card.keep("not-checked", slot, { reason: "no-access", words: "" }));
    const [first] = walkSteps(now, BOOK.stations, 1, EVERYTHING);
    expect(first && isLeft(first, 1)).toBe(false);
  });

  it("walks after work only what was found there and worked on", async () => {
    const now = await state(async (card) => {
      const slot = `finding/${card.newId()}`;
      await card.keep("finding", slot, { ...FINDING, complaints: [], photos: [] });
      const body = { findings: [slot], words: "", parts: [], torque: "", improvised: "" };
      await card.keep("work-done", `work/${card.newId()}`, body);
    });
    expect(names(now, 2)).toEqual(["rock/front-right"]);
  });
});
