// What a card says about the day it was opened.
import { afterEach, describe, expect, it } from "vitest";
import { BookIn } from "./book-in";
import { openCard, type OpenCard } from "./open-card";
import { dayOf, startOf } from "./opened";
import { CARD, makeBay, show, takeAway, until } from "./testing";

function Booking({ card }: { card: OpenCard }) {
  return card.state.value ? <BookIn card={card} state={card.state.value} /> : null;
}

afterEach(takeAway);

describe("the day a card was opened", () => {
  it("is kept with the first thing kept on it, and once", async () => {
    const bay = makeBay();
    const card = openCard(bay, CARD);
    const page = show(bay, <Booking card={card} />);
    await until(() => page.querySelector("input") !== null);
    expect(card.state.value?.entries).toEqual([]);
    await card.keep("fact", "vehicle/plate", { value: "TSG 482" });
    await until(() => card.standing("card/opened") !== null);
    expect(card.standing("card/opened")?.body).toEqual({ value: dayOf(startOf(CARD)) });
    await card.keep("fact", "vehicle/make", { value: "Corvane" });
    const kept = card.state.value?.entries.filter((entry) => entry.slot === "card/opened");
    expect(kept).toHaveLength(1);
  });

  it("comes from the card's own id, not from the day it is looked at", () => {
    expect(startOf("019ab3ee-0000-7000-8000-000000000001")).toBe(0x019ab3ee0000);
    expect(dayOf(new Date(2026, 10, 5, 23, 59).getTime())).toBe("2026-11-05");
  });
});
