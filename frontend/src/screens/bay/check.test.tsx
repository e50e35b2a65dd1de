/** Promises of the check screen, on a page with a real store. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { here, routeOf } from "../route";
import { button, CARD, makeBay, show, until, walkedCard } from "./testing";
import { SHOWN_MS } from "./moving-on";
import { Walk } from "./walk";
import type { OpenCard } from "./open-card";

function Walking({ card }: { card: OpenCard }) {
  const route = here.value;
  const state = card.state.value;
  return state && route.at === "walk" ? <Walk card={card} state={state} route={route} /> : null;
}

async function walking(spot: string) {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
  const bay = makeBay();
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${card.id}`, ["lifted"]);
  here.value = routeOf(`/bay/${CARD}/walk/1/all/${spot}`);
  const page = show(bay, <Walking card={card} />);
  await until(() => step(page) !== undefined);
  return { bay, card, page };
}
const step = (page: Element) => page.querySelector<HTMLElement>("[data-step]")?.dataset["step"];
const answers = (card: OpenCard) =>
  card.state.value?.entries.filter((entry) => entry.kind === "answer") ?? [];
const awake = (page: Element, name: string) => button(page, name).getAttribute("aria-disabled") !== "true";

afterEach(() => vi.useRealTimers());

describe("a check that fills the screen", () => {
  it("records a choice with one tap and shows the next check", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    await until(() => awake(page, "No play felt"));
    button(page, "No play felt").click();
    await until(() => step(page) === "wheels/play/front-left/1");
    expect(answers(card).map((entry) => entry.body)).toEqual([{ is: "choice", choice: "none" }]);
  });

  it("moves nobody who went on while the answer was being written", async () => {
    const { bay, card, page } = await walking("wheels/rock/front-left");
    await until(() => awake(page, "No play felt"));
    const timers = vi.spyOn(globalThis, "setTimeout");
    const { append } = bay.store;
    const { promise: allowed, resolve: write } = Promise.withResolvers<undefined>();
    bay.store.append = (entries) => allowed.then(() => append(entries));
    button(page, "No play felt").click();
    button(page, "Next check").click();
    await until(() => step(page) === "wheels/play/front-left/1");
    write(undefined);
    await until(() => page.querySelector(".undo-here") !== null);
    expect(answers(card)).toHaveLength(1);
    expect(timers.mock.calls.filter(([, ms]) => ms === SHOWN_MS)).toEqual([]);
  });

  it("records once in a storm of taps", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    await until(() => awake(page, "No play felt"));
    for (let tap = 0; tap < 8; tap += 1) button(page, "No play felt").click();
    await until(() => step(page) === "wheels/play/front-left/1");
    expect(answers(card)).toHaveLength(1);
  });

  it("stays where it is under a camera that was opened before the next check came", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    await until(() => awake(page, "No play felt"));
    button(page, "No play felt").click();
    const camera = document.createElement("dialog");
    camera.open = true;
    page.append(camera);
    await until(() => page.querySelector(".kept-now") !== null);
    await until(() => page.querySelector(".kept-now") === null);
    expect(step(page)).toBe("wheels/rock/front-left/1");
    expect(answers(card)).toHaveLength(1);
  });

  it("goes back to the check when its answer is undone", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    await until(() => awake(page, "No play felt"));
    button(page, "No play felt").click();
    await until(() => step(page) === "wheels/play/front-left/1");
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(
      () => step(page) === "wheels/rock/front-left/1" && card.standing("wheels/rock/front-left/1") === null,
    );
    expect(page.querySelector(".choice[aria-pressed=true]")).toBeNull();
  });

  it("lets an answer be taken back late, and that be undone", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    const slot = "wheels/rock/front-left/1";
    await card.keep("answer", slot, { is: "choice", choice: "clear" });
    await until(() => page.querySelector(".verdict") !== null);
    button(page, "Take this answer back").click();
    await until(() => card.standing(slot) === null);
    await until(() => page.querySelector(".verdict") === null);
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(() => card.standing(slot) !== null);
    expect(card.standing(slot)?.body).toEqual({ is: "choice", choice: "clear" });
    expect(card.state.value?.disagreements).toEqual([]);
  });

  it("stays at a reading beyond its limit and proposes a finding", async () => {
    const { card, page } = await walking("wheels/play/front-left");
    for (const key of ["0", "Comma", "8"]) button(page, key).click();
    await until(() => page.querySelector(".reading .figure")?.textContent === "0,8");
    button(page, "Keep").click();
    await until(() => page.querySelector(".proposal") !== null);
    button(page, "Accept").click();
    await until(() => card.state.value?.findings.length === 1);
    expect(card.state.value?.findings[0]?.entry.body).toMatchObject({
      title: "Play at the rim",
      grade: "major",
      proposed: { limit: "rim-play" },
    });
    expect(step(page)).toBe("wheels/play/front-left/1");
  });

  it("has half-typed digits again after the app was killed", async () => {
    const { bay, card, page } = await walking("wheels/play/front-left");
    for (const key of ["0", "Dot", "3"]) button(page, key).click();
    await until(() => page.querySelector(".reading .figure")?.textContent === "0.3");
    await bay.store.draft("nothing");
    const again = show(bay, <Walking card={card} />);
    await until(() => again.querySelector(".reading .figure")?.textContent === "0.3");
    expect(answers(card)).toEqual([]);
  });

  it("takes one tap to say why it could not be checked", async () => {
    const { card, page } = await walking("wheels/rock/front-left");
    button(page, "Could not check").click();
    await until(() => page.querySelector(".reasons") !== null);
    button(page, "No access").click();
    await until(() => card.state.value?.notChecked.length === 1);
    expect(card.state.value?.notChecked[0]?.entry.body).toEqual({ reason: "no-access", words: "" });
  });
});

describe("the cautions of a checklist", () => {
  it("come before its first check, once per card", async () => {
    const { bay, card } = await walking("wheels/rock/front-left");
    await bay.store.keepDraft(`cautions-read/${card.id}`, []);
    const page = show(bay, <Walking card={card} />);
    await until(() => page.querySelector(".caution.is-danger") !== null);
    expect(step(page)).toBeUndefined();
    button(page, "I have read this").click();
    await until(() => step(page) === "wheels/rock/front-left/1");
    expect(await bay.store.draft(`cautions-read/${card.id}`)).toEqual(["lifted"]);
  });
});
