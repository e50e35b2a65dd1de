/** Promises of what is worked out by itself on a walk: it wants no tap, is read in passing, and stops the walk where it has to. */
import { afterEach, describe, expect, it } from "vitest";
import type { Book, Check, Method } from "../../measure/book";
import { here, routeOf } from "../route";
import {
  BOOK,
  button,
  CARD,
  CHECKLIST,
  makeBay,
  PLAY,
  ROCK,
  show,
  takeAway,
  until,
  walkedCard,
} from "./testing";
import type { OpenCard } from "./open-card";
import { Walk } from "./walk";

const TWICE: Method = {
  id: "twice",
  says: "Both sides together",
  inputs: {
    play: { unit: "mm", says: "play" },
    other: { unit: "mm", says: "other side", default: 0 },
  },
  output: { unit: "mm", says: "sum" },
  tree: ["mul", ["in", "play"], ["num", 2]],
  function: null,
  source: "test",
  basis: "common practice",
  validity: "",
  cautions: [],
  examples: [],
};
const SUM: Check = {
  ...PLAY,
  id: "sum",
  ask: "Play of both sides together",
  answer: {
    kind: "worked-out",
    method: "twice",
    unit: "mm",
    decimals: 2,
    inputs: { play: { check: "play", take: "value" } },
  },
};
const ASKS_MAKER: Check = {
  ...SUM,
  answer: {
    kind: "worked-out",
    method: "twice",
    unit: "mm",
    decimals: 2,
    inputs: {
      play: { check: "play", take: "value" },
      other: { maker: "other", ask: "Other side", unit: "mm" },
    },
  },
};
const WIDE: Check = { ...PLAY, limits: PLAY.limits.map((limit) => ({ ...limit, above: 5 })) };
const bookWith = (...checks: Check[]): Book => ({
  ...BOOK,
  methods: { twice: TWICE },
  checklists: [{ ...CHECKLIST, checks }],
});

function Walking({ card }: { card: OpenCard }) {
  const route = here.value;
  const state = card.state.value;
  return state && route.at === "walk" ? <Walk card={card} state={state} route={route} /> : null;
}

async function measuring(book: Book) {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
  const bay = makeBay(book);
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${card.id}`, ["lifted"]);
  here.value = routeOf(`/bay/${CARD}/walk/1/all/wheels/play/front-left`);
  const page = show(bay, <Walking card={card} />);
  await until(() => at(page) === "play/front-left");
  return { card, page };
}
const at = (page: Element) =>
  page.querySelector<HTMLElement>("[data-step]")?.dataset["step"]?.replace(/^wheels\/(.*)\/1$/, "$1");
const told = (page: Element) => page.querySelector(".passed-over")?.textContent ?? "";

async function reads(page: Element, digits: readonly string[]): Promise<void> {
  for (const key of digits) button(page, key).click();
  await until(() => page.querySelector(".reading .figure")?.textContent !== "");
  button(page, "Keep").click();
}

afterEach(takeAway);

describe("a step that is worked out by itself", () => {
  it("is passed over, and its result and verdict are read at the check after it", async () => {
    const { page } = await measuring(bookWith(WIDE, SUM, ROCK));
    await reads(page, ["0", "Dot", "2"]);
    await until(() => at(page) === "rock/front-left");
    expect(told(page)).toContain("Play of both sides together");
    expect(told(page)).toContain("0.40 mm");
    expect(told(page)).toContain("In order");
    button(page, "Next check").click();
    await until(() => at(page) === "rock/front-right");
    expect(told(page)).toBe("");
    button(page, "Previous check").click();
    await until(() => at(page) === "rock/front-left");
    button(page, "Previous check").click();
    await until(() => at(page) === "play/front-left");
  });

  it("is told at the end of the walk when nothing comes after it", async () => {
    const { page } = await measuring(bookWith(WIDE, SUM));
    await reads(page, ["0", "Dot", "2"]);
    await until(() => page.textContent.includes("Nothing left on this walk"));
    expect(told(page)).toContain("0.40 mm");
  });

  it("stops the walk where the result is beyond its limit", async () => {
    const { page } = await measuring(bookWith(WIDE, SUM, ROCK));
    await reads(page, ["0", "Dot", "4"]);
    await until(() => at(page) === "sum/front-left");
    expect(page.querySelector(".proposal")).not.toBeNull();
  });

  it("stops the walk where a figure of the maker's is asked for", async () => {
    const { page } = await measuring(bookWith(WIDE, ASKS_MAKER, ROCK));
    await reads(page, ["0", "Dot", "2"]);
    await until(() => at(page) === "sum/front-left");
    expect(page.textContent).toContain("Other side");
  });

  it("waits unseen where a check it needs was left open, and is not told once its reading is taken back", async () => {
    const { card, page } = await measuring(bookWith(WIDE, SUM, ROCK));
    button(page, "Next check").click();
    await until(() => at(page) === "rock/front-left");
    expect(told(page)).toBe("");
    button(page, "Previous check").click();
    await until(() => at(page) === "play/front-left");
    await reads(page, ["0", "Dot", "2"]);
    await until(() => told(page) !== "");
    const reading = card.standing("wheels/play/front-left/1");
    if (reading) await card.takeBack(reading, null);
    await until(() => told(page) === "");
  });
});
