/** Promises of a typed reading: its unit, numbers that can hardly be right, gauges that type, repeats. */
import { afterEach, describe, expect, it } from "vitest";
import type { Book, Check } from "../../measure/book";
import type { Me } from "../../store/types";
import { here, routeOf } from "../route";
import type { OpenCard } from "./open-card";
import {
  BOOK,
  button,
  CARD,
  CHECKLIST,
  makeBay,
  ME,
  PLAY,
  ROCK,
  show,
  takeAway,
  until,
  walkedCard,
} from "./testing";
import { Walk } from "./walk";

const TREAD: Check = {
  ...PLAY,
  id: "tread",
  ask: "How deep is the tread?",
  at: ["front-left"],
  limits: [],
  answer: {
    kind: "spread",
    unit: "mm",
    decimals: 1,
    range: [0, 20],
    instruments: ["tread-gauge-0.1"],
    points: [
      { id: "inner", label: "Inner" },
      { id: "outer", label: "Outer" },
    ],
  },
};
const CODES: Check = {
  ...ROCK,
  id: "codes",
  ask: "Which codes are stored?",
  at: ["front-left"],
  answer: { kind: "codes" },
};
const INCHES: Book = {
  ...BOOK,
  units: {
    ...BOOK.units,
    atoms: {
      ...BOOK.units.atoms,
      "[in_i]": { factor: 0.0254, dim: [1, 0, 0, 0, 0, 0, 0, 0], says: "inch", metric: false },
    },
  },
  instruments: {
    "tread-gauge-0.1": {
      id: "tread-gauge-0.1",
      title: "Tread gauge",
      unit: "mm",
      resolution: 0.1,
      quantity: "length",
      source: "test",
    },
  },
  checklists: [{ ...CHECKLIST, checks: [PLAY, TREAD, CODES, ROCK] }],
};
const US: Me = { ...ME, workshop: { ...ME.workshop, units: "us" } };
const PLAY_SLOT = "wheels/play/front-left/1";
const TREAD_SLOT = "wheels/tread/front-left/1";

function Walking({ card }: { card: OpenCard }) {
  const route = here.value;
  const state = card.state.value;
  return state && route.at === "walk" ? <Walk card={card} state={state} route={route} /> : null;
}

async function walking(spot: string, me: Me = ME) {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
  const bay = { ...makeBay(INCHES), me };
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${card.id}`, ["lifted"]);
  here.value = routeOf(`/bay/${CARD}/walk/1/all/${spot}`);
  const page = show(bay, <Walking card={card} />);
  await until(() => page.querySelector(".pad, .codes") !== null);
  return { bay, card, page };
}
const tap = (page: Element, ...keys: string[]) => {
  for (const key of keys) button(page, key).click();
};
const typeKeys = (...keys: string[]) => {
  for (const key of keys) document.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
};
const shown = (page: Element) => page.querySelector(".reading .figure")?.textContent;

afterEach(takeAway);

describe("the unit of a reading", () => {
  it("is switched without changing what was typed, and judged by conversion", async () => {
    const { card, page } = await walking("wheels/play/front-left");
    tap(page, "0", "Dot", "0", "3");
    await until(() => shown(page) === "0.03");
    tap(page, "mm, switch to in");
    await until(() => page.querySelector(".unit-switch")?.textContent.startsWith("in") === true);
    expect(shown(page)).toBe("0.03");
    tap(page, "Keep");
    await until(() => card.standing(PLAY_SLOT) !== null);
    expect(card.standing(PLAY_SLOT)?.body).toMatchObject({ value: 0.03, unit: "[in_i]", typed: "0.03" });
    // 0.03 in is 0.762 mm, beyond the limit of 0.5 mm.
    await until(() => card.state.value?.proposals.length === 1);
  });

  it("cannot be switched under readings that were taken already", async () => {
    const { page } = await walking("wheels/play/front-left");
    tap(page, "1");
    await until(() => shown(page) === "1");
    tap(page, "Again");
    await until(() => page.querySelector(".before")?.textContent === "1");
    expect(page.querySelector(".unit-switch")).toBeNull();
  });

  it("is 32nds for tread in a US-unit workshop", async () => {
    const { card, page } = await walking("wheels/tread/front-left", US);
    tap(page, "5");
    await until(() => page.querySelector(".point .figure")?.textContent === "5");
    tap(page, "Next point");
    await until(() => page.querySelector(".point:last-child")?.getAttribute("aria-pressed") === "true");
    tap(page, "7");
    await until(() => page.querySelector(".point:last-child .figure")?.textContent === "7");
    tap(page, "Keep");
    await until(() => card.standing(TREAD_SLOT) !== null);
    expect(card.standing(TREAD_SLOT)?.body).toMatchObject({
      values: { inner: 5, outer: 7 },
      unit: "[in_i]/32",
    });
  });
});

describe("a reading a hundred times too large", () => {
  it("is asked about once in place, also by a storm of taps, and kept as typed by a later tap", async () => {
    const { bay, card, page } = await walking("wheels/play/front-left");
    tap(page, "5", "0");
    await until(() => shown(page) === "50");
    tap(page, "Keep");
    await until(() => page.querySelector("[role=alert]") !== null);
    expect(page.querySelector("[role=alert]")?.textContent).toContain("50 mm lies outside 0 to 10 mm");
    bay.clock.ms += 500;
    await new Promise((resolve) => setTimeout(resolve, 420));
    tap(page, "Keep");
    expect(card.standing(PLAY_SLOT)).toBeNull();
    bay.clock.ms += 500;
    await until(() => {
      tap(page, "Keep");
      return card.standing(PLAY_SLOT) !== null;
    });
    expect(card.standing(PLAY_SLOT)?.body).toMatchObject({ value: 50, typed: "50" });
  });
});

describe("a gauge that types what it shows", () => {
  it("lands in the open number, in place of digits left there, and goes on", async () => {
    const { card, page } = await walking("wheels/play/front-left");
    tap(page, "9");
    await until(() => shown(page) === "9");
    typeKeys("0", ".", "1", "2", "Enter");
    await until(() => card.standing(PLAY_SLOT) !== null);
    expect(card.standing(PLAY_SLOT)?.body).toMatchObject({ value: 0.12, typed: "0.12" });
    await until(() => page.querySelector("[data-step='wheels/tread/front-left/1']") !== null);
  });

  it("fills point after point", async () => {
    const { card, page } = await walking("wheels/tread/front-left");
    typeKeys("4", ".", "6", "Enter");
    await until(() => page.querySelector(".point:last-child")?.getAttribute("aria-pressed") === "true");
    typeKeys("4", ".", "8", "Enter");
    await until(() => card.standing(TREAD_SLOT) !== null);
    expect(card.standing(TREAD_SLOT)?.body).toMatchObject({ values: { inner: 4.6, outer: 4.8 }, unit: "mm" });
  });

  it("leaves Enter to the button in focus when nothing was typed", async () => {
    await walking("wheels/play/front-left");
    const enter = new KeyboardEvent("keydown", { key: "Enter", cancelable: true, bubbles: true });
    document.dispatchEvent(enter);
    expect(enter.defaultPrevented).toBe(false);
  });
});

describe("repeats", () => {
  it("show their mean and how far they lie apart, and are all kept", async () => {
    const { card, page } = await walking("wheels/play/front-left");
    tap(page, "0", "Dot", "1", "2");
    await until(() => shown(page) === "0.12");
    tap(page, "Again");
    await until(() => shown(page) === "–");
    tap(page, "0", "Dot", "1", "4");
    await until(() => page.querySelector(".repeats") !== null);
    expect(page.querySelector(".repeats")?.textContent).toBe("2 readings · mean 0.13 mm · 0.02 mm apart");
    tap(page, "Keep mean of 2");
    await until(() => card.standing(PLAY_SLOT) !== null);
    expect(card.standing(PLAY_SLOT)?.body).toMatchObject({ value: 0.13, repeats: [0.12, 0.14] });
  });
});

describe("an answer that is changed", () => {
  it("wants only the point of a set that is typed again", async () => {
    const { card, page } = await walking("wheels/tread/front-left");
    await card.keep("answer", TREAD_SLOT, { is: "spread", values: { inner: 1.9, outer: 4.6 }, unit: "mm" });
    await until(() => page.textContent.includes("4.6"));
    tap(page, "2", "Dot", "1");
    await until(() => !button(page, "Keep").disabled);
    tap(page, "Keep");
    await until(() => card.state.value?.entries.filter((one) => one.slot === TREAD_SLOT).length === 2);
    expect(card.standing(TREAD_SLOT)?.body).toMatchObject({ values: { inner: 2.1, outer: 4.6 } });
  });

  it("keeps a whole code that was typed and not added", async () => {
    const { card, page } = await walking("wheels/codes/front-left");
    const box = page.querySelector("input");
    if (!box) throw new Error("no box for a code");
    box.value = "p0299";
    box.dispatchEvent(new Event("input", { bubbles: true }));
    await until(() => page.textContent.includes("Keep 1 code"));
    tap(page, "Keep 1 code");
    await until(() => card.standing("wheels/codes/front-left/1") !== null);
    expect(card.standing("wheels/codes/front-left/1")?.body).toEqual({ is: "codes", codes: ["P0299"] });
  });
});
