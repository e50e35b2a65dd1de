/** Promises of an open card. */
import { describe, expect, it, vi } from "vitest";
import { makeBay, until, walkedCard } from "./testing";
import { openCard } from "./open-card";

const SLOT = "wheels/rock/front-left/1";

describe("an open card", () => {
  it("has an entry in the store before it says that it was kept", async () => {
    const bay = makeBay();
    const card = await walkedCard(bay);
    const entry = await card.keep("answer", SLOT, { is: "choice", choice: "none" });
    const held = await bay.store.entriesOf(card.id);
    expect(held.map((one) => one.id)).toContain(entry?.id);
    expect((await bay.store.waiting()).entries).toHaveLength(2);
  });

  it("is not read again for what was made on this phone", async () => {
    const bay = makeBay();
    const card = await walkedCard(bay);
    const read = vi.spyOn(bay.store, "entriesOf");
    const entry = await card.keep("answer", SLOT, { is: "choice", choice: "none" });
    expect(card.standing(SLOT)?.id).toBe(entry?.id);
    expect(read).not.toHaveBeenCalled();
  });

  it("lets a new answer replace what its author saw standing", async () => {
    const card = await walkedCard(makeBay());
    const first = await card.keep("answer", SLOT, { is: "choice", choice: "none" });
    const second = await card.keep("answer", SLOT, { is: "choice", choice: "clear" });
    expect(second?.replaces).toEqual([first?.id]);
    expect(card.state.value?.disagreements).toEqual([]);
  });

  it("does not make a fast finger disagree with itself", async () => {
    const card = await walkedCard(makeBay());
    const [first, second] = await Promise.all([
      card.keep("answer", SLOT, { is: "choice", choice: "none" }),
      card.keep("answer", SLOT, { is: "choice", choice: "clear" }),
    ]);
    expect(second?.replaces).toEqual([first?.id]);
    expect(card.state.value?.disagreements).toEqual([]);
  });

  it("puts back the answer before when an answer is taken back", async () => {
    const card = await walkedCard(makeBay());
    const before = await card.keep("answer", SLOT, { is: "choice", choice: "none" });
    const entry = await card.keep("answer", SLOT, { is: "choice", choice: "clear" });
    if (entry) await card.takeBack(entry, before);
    expect(card.standing(SLOT)?.body).toEqual({ is: "choice", choice: "none" });
  });

  it("leaves a step open again when its only answer is taken back", async () => {
    const card = await walkedCard(makeBay());
    const entry = await card.keep("answer", SLOT, { is: "choice", choice: "none" });
    if (entry) await card.takeBack(entry, null);
    expect(card.standing(SLOT)).toBeNull();
    expect(card.state.value?.checklists[0]?.open).toBe(3);
  });

  it("says what is wrong with an entry and keeps none of it", async () => {
    const bay = makeBay();
    const card = await walkedCard(bay);
    expect(await card.keep("fact", "customer/email", { value: "no address" })).toBeNull();
    expect(card.refusal.value?.do).not.toBe("");
    expect(await bay.store.entriesOf(card.id)).toHaveLength(1);
  });

  it("shows what another window kept on the same card", async () => {
    const bay = makeBay();
    const mine = await walkedCard(bay);
    const theirs = openCard(bay, mine.id);
    await until(() => theirs.state.value !== null);
    await theirs.keep("complaint", `card/complaint/${theirs.newId()}`, { words: "Hum from the rear" });
    await until(() => mine.state.value?.complaints.length === 1);
    expect(mine.state.value?.complaints[0]?.words).toBe("Hum from the rear");
  });
});
