/** Sounds side by side. */
import { describe, expect, it } from "vitest";
import type { Check } from "../../measure/book";
import { sidesOf, soundsAt } from "./sound-sides";
import { lineOf, sharedRange } from "./sound-compare";
import { BOOK, CHECKLIST, makeBay, ROCK, until, walkedCard } from "./testing";

const HUM: Check = { ...ROCK, id: "hum", ask: "Spin the wheel.", answer: { kind: "sound", seconds: 5 } };
const HUMMING = { ...BOOK, checklists: [{ ...CHECKLIST, checks: [HUM] }] };

async function humming() {
  const card = await walkedCard(makeBay(HUMMING));
  const hear = async (about: string, round: number, id: number) => {
    const bytes = new ArrayBuffer(4);
    const blob = id.toString(16).padStart(64, "0");
    const body = { blob, mime: "audio/webm", bytes: 4, seconds: 5, about, round, caption: "" };
    const kept = await card.keepWithBlob("sound", `sound/${card.newId()}`, body, bytes);
    if (!kept) throw new Error("not kept");
    await until(() => card.state.value?.sounds.some((sound) => sound.body.blob === blob) === true);
  };
  const sides = (place: number, round: number) => {
    const state = card.state.value;
    const step = state?.checklists[0]?.steps[place];
    return state && step ? sidesOf(state, step, round) : [];
  };
  return { card, hear, sides };
}

describe("sounds of a check", () => {
  it("stand side by side as left and right, whichever was recorded last", async () => {
    const { hear, sides } = await humming();
    expect(sides(0, 1)).toEqual([]);
    await hear("wheels/hum/front-right/1", 1, 1);
    expect(sides(1, 1).map((side) => side.name)).toEqual(["Front right"]);
    await hear("wheels/hum/front-left/1", 1, 2);
    expect(sides(1, 1).map((side) => side.name)).toEqual(["Front left", "Front right"]);
    expect(sides(0, 1).map((side) => side.name)).toEqual(["Front left", "Front right"]);
  });

  it("stand side by side as found and after work when the other side has none", async () => {
    const { card, hear, sides } = await humming();
    await hear("wheels/hum/front-left/1", 1, 1);
    await hear("wheels/hum/front-left", 2, 2);
    expect(sides(0, 2).map((side) => side.name)).toEqual(["As found", "After work"]);
    const state = card.state.value;
    expect(state && soundsAt(state, "wheels/hum/front-left", 2)).toHaveLength(1);
  });
});

describe("the lines of two sounds", () => {
  it("are drawn on one scale, so that the louder one lies higher", () => {
    const loud = [
      { hz: 100, db: -20 },
      { hz: 200, db: -40 },
    ];
    const soft = loud.map(({ hz, db }) => ({ hz, db: db - 10 }));
    const range = sharedRange([loud, soft]);
    expect(range).toEqual({ lo: -70, hi: -20 });
    expect(lineOf(loud, range)).toBe("0,0 300,48");
    expect(lineOf(soft, range)).toBe("0,24 300,72");
  });
});
