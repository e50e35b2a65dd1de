/** A maker's figure is asked for once per vehicle: its later cards offer what was typed on an earlier one. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { MakerAsk } from "./maker";
import { openCard, type OpenCard } from "./open-card";
import { button, CARD, makeBay, show, takeAway, until } from "./testing";

const EARLIER = "019ab3ee-0000-7000-8000-000000000000";
const SLOT = "vehicle/maker/rim-play";
type Facts = Record<string, string>;

let bay: ReturnType<typeof makeBay>;
let cards: OpenCard[] = [];

beforeEach(() => {
  bay = makeBay();
  cards = [];
});
afterEach(async () => {
  await takeAway();
  for (const card of cards) card.close();
});

async function cardWith(id: string, facts: Facts): Promise<OpenCard> {
  const card = openCard(bay, id);
  cards.push(card);
  for (const [slot, value] of Object.entries(facts)) await card.keep("fact", slot, { value });
  await until(() => card.state.value !== null);
  return card;
}

async function earlierCard(facts: Facts, figure = 0.05): Promise<OpenCard> {
  const card = await cardWith(EARLIER, facts);
  await card.keep("fact", SLOT, { value: figure, unit: "mm" });
  return card;
}

const found = async (now: Facts) => (await cardWith(CARD, now)).earlierFigure(SLOT);

function Shown({ card }: { card: OpenCard }) {
  const state = card.state.value;
  return state && <MakerAsk card={card} state={state} name="rim-play" ask="Largest play?" unit="mm" />;
}

describe("the figure of an earlier card", () => {
  it("is offered on the next card of the vehicle, and one tap keeps it there", async () => {
    await earlierCard({ "vehicle/plate": "KP 118 ST" });
    const card = await cardWith(CARD, { "vehicle/plate": "KP118ST" });
    const page = show(bay, <Shown card={card} />);
    await until(() => page.textContent.includes("0.05"));
    const [offer] = page.querySelectorAll("button");
    button(page, offer?.textContent.trim() ?? "").click();
    await until(() => card.state.value?.facts.get(SLOT)?.value === 0.05);
    expect(card.state.value?.facts.get(SLOT)).toEqual({ value: 0.05, unit: "mm" });
    await until(() => page.querySelectorAll("button").length === 0);
  });

  it("is that of the same identification number, whatever the plate", async () => {
    await earlierCard({ "vehicle/vin": "WVWZZZ1JZXW000011", "vehicle/plate": "OLD 1" });
    expect(await found({ "vehicle/vin": "WVWZZZ1JZXW000011", "vehicle/plate": "NEW 2" })).toMatchObject({
      fact: { value: 0.05, unit: "mm" },
    });
  });

  it("is not that of another vehicle which took over the plate", async () => {
    await earlierCard({ "vehicle/vin": "WVWZZZ1JZXW000011", "vehicle/plate": "KP118ST" });
    expect(await found({ "vehicle/vin": "WVWZZZ1JZXW000022", "vehicle/plate": "KP118ST" })).toBeNull();
  });

  it("is not offered while nothing says which vehicle it is", async () => {
    await earlierCard({ "vehicle/make": "Corvane" });
    expect(await found({ "vehicle/make": "Corvane" })).toBeNull();
  });

  it("is not offered while two people dispute it", async () => {
    const before = await earlierCard({ "vehicle/plate": "KP118ST" });
    const [first] = (await bay.store.entriesOf(EARLIER)).filter((entry) => entry.slot === SLOT);
    if (!first) throw new Error("no figure was kept");
    await bay.store.append([{ ...first, id: before.newId(), author: "another" }]);
    expect(await found({ "vehicle/plate": "KP118ST" })).toBeNull();
  });
});
