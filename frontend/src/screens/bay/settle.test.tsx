/** Promises of settling what two people recorded apart: it is said who recorded what, and it can be taken back. */
import { afterEach, expect, it } from "vitest";
import { newEntry } from "../../journal/entry";
import type { Answer } from "../../journal/types";
import { here, routeOf } from "../route";
import { CARD, makeBay, ME, show, takeAway, until, walkedCard } from "./testing";
import type { OpenCard } from "./open-card";
import { Walk } from "./walk";

const SLOT = "wheels/rock/front-left/1";
const TOM = "019ab3ee-0000-7000-8000-0000000000a2";

function Walking({ card }: { card: OpenCard }) {
  const route = here.value;
  const state = card.state.value;
  return state && route.at === "walk" ? <Walk card={card} state={state} route={route} /> : null;
}

async function disagreeing() {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
  const bay = makeBay();
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${card.id}`, ["lifted"]);
  const said = (author: string, choice: string) => {
    const context = { ...bay, card: CARD, author, device: ME.device.id };
    return newEntry("answer", SLOT, { is: "choice", choice } as Answer, [], context);
  };
  await bay.store.append([said(ME.person.id, "none"), said(TOM, "clear")]);
  await until(() => card.state.value?.disagreements.length === 1);
  here.value = routeOf(`/bay/${CARD}/walk/1/all/wheels/rock/front-left`);
  const page = show(bay, <Walking card={card} />);
  await until(() => offers(page).length === 2);
  return { card, page };
}
const offers = (page: Element) =>
  [...page.querySelectorAll<HTMLButtonElement>(".verdict .button")].filter((one) =>
    one.textContent.startsWith("Settle on"),
  );
const step = (page: Element) => page.querySelector<HTMLElement>("[data-step]")?.dataset["step"];
const choices = (card: OpenCard) =>
  (card.state.value?.standing.get(SLOT) ?? [])
    .map((entry) => (entry.kind === "answer" && entry.body.is === "choice" ? entry.body.choice : entry.kind))
    .sort();

afterEach(takeAway);

it("goes on like any answer, and both stand again after its undo, each by whom it was recorded", async () => {
  const { card, page } = await disagreeing();
  const before = offers(page).map((one) => one.textContent);
  offers(page)
    .find((one) => one.textContent.includes("No play felt"))
    ?.click();
  await until(() => choices(card).length === 1);
  await until(() => step(page) === "wheels/play/front-left/1");
  page.querySelector<HTMLButtonElement>(".undo-here")?.click();
  await until(() => card.state.value?.disagreements.length === 1);
  expect(choices(card)).toEqual(["clear", "none"]);
  await until(() => step(page) === SLOT);
  expect(
    offers(page)
      .map((one) => one.textContent)
      .sort(),
  ).toEqual(before.sort());
});

it("by answering anew is taken back to both as well", async () => {
  const { card, page } = await disagreeing();
  await until(() => page.querySelector(".choice:not([aria-disabled=true])") !== null);
  page.querySelector<HTMLButtonElement>(".choice")?.click();
  await until(() => choices(card).length === 1);
  await until(() => page.querySelector(".undo-here") !== null);
  page.querySelector<HTMLButtonElement>(".undo-here")?.click();
  await until(() => choices(card).length === 2);
  expect(choices(card)).toEqual(["clear", "none"]);
});
