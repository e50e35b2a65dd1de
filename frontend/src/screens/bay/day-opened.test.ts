// What a card says about the day it was opened.
import { describe, expect, it } from "vitest";
import type { Entry } from "../../journal/types";
import { dayOf, startOf } from "./day-opened";
import { openCard, type OpenCard } from "./open-card";
import { CARD, makeBay, until } from "./testing";

const SLOT = "card/opened";
const bodies = (entries: readonly Entry[]) =>
  entries.filter((entry) => entry.slot === SLOT).map((entry) => entry.body);

async function emptyCard(bay = makeBay()): Promise<OpenCard> {
  const card = openCard(bay, CARD);
  await until(() => card.state.value !== null);
  return card;
}

describe("the day a card was opened", () => {
  it("is kept in one step with the first thing kept on it, and once", async () => {
    const bay = makeBay();
    const card = await emptyCard(bay);
    expect(card.state.value?.entries).toEqual([]);
    await card.keep("fact", "vehicle/plate", { value: "TSG 482" });
    const day = { value: dayOf(startOf(CARD)) };
    expect(bodies(await bay.store.entriesOf(CARD))).toEqual([day]);
    await card.keep("fact", "vehicle/make", { value: "Corvane" });
    expect(bodies(await bay.store.entriesOf(CARD))).toEqual([day]);
    expect((await bay.store.waiting()).entries).toHaveLength(3);
  });

  it("comes once from two things kept at the same moment", async () => {
    const card = await emptyCard();
    await Promise.all([
      card.keep("fact", "vehicle/plate", { value: "TSG 482" }),
      card.keep("fact", "vehicle/make", { value: "Corvane" }),
    ]);
    expect(bodies(card.state.value?.entries ?? [])).toHaveLength(1);
  });

  it("comes with a photo, too", async () => {
    const bay = makeBay();
    const card = await emptyCard(bay);
    const body = { blob: "ab".repeat(32), mime: "image/jpeg", bytes: 3, width: 1, height: 1 } as const;
    const photo = { ...body, about: null, round: 1, caption: "" };
    const entry = await card.keepWithBlob("photo", `photo/${card.newId()}`, photo, new ArrayBuffer(3));
    const held = await bay.store.entriesOf(CARD);
    expect(held).toHaveLength(2);
    expect(held.map((one) => one.id)).toContain(entry?.id);
    expect(bodies(held)).toHaveLength(1);
    expect((await bay.store.waiting()).entries).toHaveLength(2);
  });

  it("does not come with what could not be kept", async () => {
    const bay = makeBay();
    const card = await emptyCard(bay);
    expect(await card.keep("fact", "customer/email", { value: "no address" })).toBeNull();
    expect(await bay.store.entriesOf(CARD)).toEqual([]);
  });

  it("comes from the card's own id, not from the day it is looked at", () => {
    expect(startOf("019ab3ee-0000-7000-8000-000000000001")).toBe(0x019ab3ee0000);
    expect(dayOf(new Date(2026, 10, 5, 23, 59).getTime())).toBe("2026-11-05");
  });
});
