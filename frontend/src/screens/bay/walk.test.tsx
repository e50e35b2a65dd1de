/** Promises of the walk as a whole: all in order, jumping and coming back, searching, and going on where it was put down. */
import { afterEach, describe, expect, it } from "vitest";
import type { Book, Check } from "../../measure/book";
import { EVERYTHING, here, openedFrom, pathOf, routeOf } from "../route";
import { CardScreen } from "./card";
import { findSteps } from "./find-steps";
import { openCard, type OpenCard } from "./open-card";
import { isTold, plainAnswers } from "./plain-checks";
import { Steps } from "./steps";
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
import { Walk } from "./walk";
import { walkSteps } from "./walk-order";
import { walkOn, type WalkRoute } from "./walked-to";

const LOOK: Check = { ...ROCK, id: "look", ask: "Is the tyre whole?", at: ["front-left"] };
const PICTURED: Check = { ...LOOK, id: "pictured", ask: "Is the rim whole?", photo: "required" };
const TWO_WAYS: Check = {
  ...LOOK,
  id: "two-ways",
  ask: "Which nut is fitted?",
  answer: {
    kind: "choice",
    options: [
      { id: "locking", label: "Locking", means: "in-order" },
      { id: "plain", label: "Plain", means: "in-order" },
    ],
  },
};
const LONG: Book = {
  ...BOOK,
  checklists: [{ ...CHECKLIST, checks: [ROCK, LOOK, PICTURED, TWO_WAYS, PLAY] }],
};

function Screens({ card }: { card: OpenCard }) {
  const route = here.value;
  const state = card.state.value;
  if (!state) return null;
  if (route.at === "walk") return <Walk card={card} state={state} route={route} />;
  if (route.at === "steps") return <Steps card={card} state={state} round={1} scope={EVERYTHING} />;
  return <CardScreen card={card} state={state} />;
}

async function walking(path: string) {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
  const bay = makeBay(LONG);
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${card.id}`, ["lifted"]);
  here.value = routeOf(`/bay/${CARD}/${path}`);
  const page = show(bay, <Screens card={card} />);
  return { bay, card, page };
}
const step = (page: Element) => page.querySelector<HTMLElement>("[data-step]")?.dataset["step"];
const answers = (card: OpenCard) =>
  card.state.value?.entries.filter((entry) => entry.kind === "answer") ?? [];
const ALL = "All in order: 2 plain checks left here, Front left wheel";
const has = (page: Element, name: string) => page.querySelector(`[aria-label="${name}"]`) !== null;

afterEach(takeAway);

describe("all of this station in order", () => {
  it("answers each plain check by an entry of its own, with the person behind it, and no other check", async () => {
    const { card, page } = await walking("walk/1/all/wheels/rock/front-left");
    await until(() => has(page, ALL));
    button(page, ALL).click();
    await until(() => answers(card).length === 2);
    expect(answers(card).map(({ slot, body }) => [slot, body])).toEqual([
      ["wheels/rock/front-left/1", { is: "choice", choice: "none" }],
      ["wheels/look/front-left/1", { is: "choice", choice: "none" }],
    ]);
    expect(new Set(answers(card).map((entry) => entry.author)).size).toBe(1);
    await until(() => step(page) === "wheels/pictured/front-left/1");
  });

  it("is taken back by one undo, which shows the check it was tapped on", async () => {
    const { card, page } = await walking("walk/1/all/wheels/rock/front-left");
    await until(() => has(page, ALL));
    button(page, ALL).click();
    await until(() => step(page) === "wheels/pictured/front-left/1");
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(() => step(page) === "wheels/rock/front-left/1");
    await until(() => card.standing("wheels/look/front-left/1") === null);
    expect(card.standing("wheels/rock/front-left/1")).toBeNull();
  });

  it("answers nothing whose cautions were not read on this card", async () => {
    const card = await walkedCard(makeBay(LONG));
    const state = card.state.value;
    const steps = state ? walkSteps(state, LONG.stations, 1, EVERYTHING) : [];
    const told = (read: string[]) =>
      plainAnswers(steps, 1, (one) => state !== null && isTold(state, read, one)).length;
    expect(told([])).toBe(0);
    expect(told(["lifted"])).toBe(3);
  });
});

describe("jumping about", () => {
  it("leads back to the check one was at", async () => {
    const { page } = await walking("walk/1/all/wheels/look/front-left");
    await until(() => step(page) === "wheels/look/front-left/1");
    [...page.querySelectorAll<HTMLButtonElement>(".stop")].at(-1)?.click();
    await until(() => step(page) === "wheels/rock/front-right/1");
    page.querySelector<HTMLElement>(".stop-back > .stop")?.click();
    await until(() => step(page) === "wheels/look/front-left/1");
    expect(page.querySelector(".stop-back")).toBeNull();
  });

  it("finds checks by any word of them and goes there", async () => {
    const { page, card } = await walking("steps/1/all");
    await until(() => page.querySelectorAll(".step-row").length === 6);
    const field = page.querySelector("input");
    if (field) field.value = "RIM front  left";
    field?.dispatchEvent(new Event("input"));
    await until(() => page.querySelectorAll(".step-row").length === 2);
    page.querySelector<HTMLButtonElement>(".step-row")?.click();
    await until(() => step(page) === "wheels/pictured/front-left/1");
    const state = card.state.value;
    expect(state && findSteps(walkSteps(state, LONG.stations, 1, EVERYTHING), "nowhere", state)).toEqual([]);
  });
});

describe("the list of all checks", () => {
  it("opens with the present check in sight and named as such, and leads back to the walk in one step", async () => {
    const { page } = await walking("walk/1/all/wheels/two-ways/front-left");
    await until(() => step(page) === "wheels/two-ways/front-left/1");
    const seen: Element[] = [];
    Element.prototype.scrollIntoView = function (this: Element) {
      seen.push(this);
    };
    button(page, "4/6, All checks").click();
    await until(() => seen.length > 0);
    const current = [...page.querySelectorAll(".step-row[aria-current=step]")];
    expect(current.map((one) => one.textContent)).toEqual([expect.stringContaining("Which nut is fitted?")]);
    expect(seen.at(-1)).toBe(current[0]);
    expect(page.querySelector(".foot input")).not.toBeNull();
    page.querySelector<HTMLButtonElement>(".step-row")?.click();
    await until(() => step(page) === "wheels/rock/front-left/1");
    expect(openedFrom()).not.toMatchObject({ at: "steps" });
  });

  it("shows what is found from its top, and the present check again when the search is over", async () => {
    const { page } = await walking("steps/1/all");
    await until(() => page.querySelectorAll(".step-row").length === 6);
    const tops: number[] = [];
    window.scrollTo = () => void tops.push(0);
    const seen: Element[] = [];
    Element.prototype.scrollIntoView = function (this: Element) {
      seen.push(this);
    };
    const field = page.querySelector("input");
    if (!field) throw new Error("no search");
    field.value = "nut";
    field.dispatchEvent(new Event("input"));
    await until(() => page.querySelectorAll(".step-row").length === 1 && tops.length > 0);
    expect(seen).toEqual([]);
    field.value = "";
    field.dispatchEvent(new Event("input"));
    await until(() => seen.length > 0);
    expect(seen[0]?.textContent).toContain("Rock the wheel");
  });
});

describe("a card whose repair was rechecked", () => {
  it("still leads to what is left as found", async () => {
    const { card, page } = await walking("");
    const about = "wheels/play/front-left";
    const finding = { title: "Play", plain: "", grade: "major", about, place: "front-left" } as const;
    const ties = { complaints: [], photos: [], proposed: null, note: "" };
    const work = { words: "Hub changed", parts: [], torque: "", improvised: "" };
    await card.keep("answer", `${about}/1`, { is: "number", value: 0.8, unit: "mm" });
    await card.keep("finding", `finding/at/${about}`, { ...finding, ...ties });
    await card.keep("work-done", `work/${CARD}`, { ...work, findings: [`finding/at/${about}`] });
    await card.keep("answer", `${about}/2`, { is: "number", value: 0.1, unit: "mm" });
    await until(() => card.state.value?.round === 2);
    here.value = routeOf(`/bay/${CARD}/findings`);
    here.value = routeOf(`/bay/${CARD}`);
    const foot = () => page.querySelector(".foot .strong")?.textContent;
    await until(() => foot() === "Walk · As found · 5 left");
    page.querySelector<HTMLButtonElement>(".foot .strong")?.click();
    expect(pathOf(here.value)).toContain("/walk/1/");
  });
});

describe("a walk that was put down", () => {
  it("goes on at the very check after the app was killed", async () => {
    const { bay, page, card } = await walking("walk/1/all/wheels/two-ways/front-left");
    await until(() => step(page) === "wheels/two-ways/front-left/1");
    await until(() => card.place.last.value !== null);
    card.close();
    here.value = routeOf(`/bay/${CARD}`);
    const again = openCard(bay, CARD);
    const later = show(bay, <Screens card={again} />);
    await until(() => again.state.value !== null && again.place.last.value !== null);
    later.querySelector<HTMLButtonElement>(".foot .strong")?.click();
    await until(() => step(later) === "wheels/two-ways/front-left/1");
    expect(pathOf(here.value)).toBe(`/bay/${CARD}/walk/1/all/wheels/two-ways/front-left`);
  });

  it("starts anew in another round, and when nothing is left", async () => {
    const { card } = await walking("walk/1/all/wheels/look/front-left");
    const state = card.state.value;
    const steps = state ? walkSteps(state, LONG.stations, 1, EVERYTHING) : [];
    const last = routeOf(`/bay/${CARD}/walk/1/all/wheels/look/front-left`);
    const start = (round: number): WalkRoute => ({
      at: "walk",
      card: CARD,
      round,
      scope: EVERYTHING,
      spot: null,
    });
    if (last.at !== "walk") throw new Error("not a walk");
    expect(walkOn(steps, last, start(1))).toBe(last);
    expect(walkOn(steps, last, start(2))).toEqual(start(2));
    expect(walkOn([], last, start(1))).toEqual(start(1));
  });
});
