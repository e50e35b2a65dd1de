/** Promises of words that were typed and not kept: leaving keeps them once, or the card says that they are begun. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Book, Check } from "../../measure/book";
import { here, pathOf, routeOf } from "../route";
import { OnCard, type CardRoute } from "./on-card";
import { openCard, type OpenCard } from "./open-card";
import { BOOK, button, CARD, CHECKLIST, makeBay, PLAY, ROCK, show, takeAway, until } from "./testing";

const WORDS: Check = {
  ...ROCK,
  id: "words",
  ask: "What was changed here?",
  at: ["front-left"],
  answer: { kind: "text" },
};
const LOOK: Check = { ...ROCK, id: "look", ask: "Is the tyre whole?", at: ["front-left"] };
const LONG: Book = { ...BOOK, checklists: [{ ...CHECKLIST, checks: [WORDS, ROCK, LOOK, PLAY] }] };
const ALL = "All in order: 2 plain checks left here, Front left wheel";
const SAID = "wheels/words/front-left/1";
const FELT = "wheels/rock/front-left/1";
const WORK = "y";
const BEGUN = "begun";

function Screens({ bay }: { bay: ReturnType<typeof makeBay> }) {
  return <OnCard bay={bay} route={here.value as CardRoute} />;
}

async function atPath(path: string) {
  const bay = makeBay(LONG);
  const card = openCard(bay, CARD);
  await bay.store.keepDraft(`cautions-read/${CARD}`, ["lifted"]);
  await card.keep("checklist-chosen", "card/checklist/wheels", { version: 1, sha256: CHECKLIST.sha256 });
  await card.keep("complaint", `card/complaint/${CARD}`, { words: "It hums" });
  await until(() => card.state.value?.complaints.length === 1);
  history.pushState(null, "", `/bay/${CARD}/${path}`);
  here.value = routeOf(location.pathname);
  const page = show(bay, <Screens bay={bay} />);
  await until(() => page.querySelector("h1") !== null);
  return { bay, card, page };
}
const atCheck = async (check: string) => {
  const shown = await atPath(`walk/1/all/wheels/${check}/front-left`);
  await until(() => step(shown.page) === `wheels/${check}/front-left/1`);
  return shown;
};
const step = (page: Element) => page.querySelector<HTMLElement>("[data-step]")?.dataset["step"];
const made = (card: OpenCard, slot: string) =>
  card.state.value?.entries.filter((entry) => entry.slot === slot) ?? [];
const stands = (card: OpenCard, slot: string) => card.standing(slot)?.body ?? null;
const begun = (page: Element) =>
  [...page.querySelectorAll(".half-written button")].map((one) =>
    one.textContent.replace(/\s+/g, " ").trim(),
  );
const next = (page: Element) => button(page, "Next check").click();
const toCard = async (page: Element) => {
  button(page, "Back").click();
  await until(() => pathOf(here.value) === `/bay/${CARD}`);
};
const has = (page: Element, name: string) =>
  until(() => [...page.querySelectorAll("button")].some((one) => one.textContent.trim() === name));

function box(page: Element, label: string) {
  const named = [...page.querySelectorAll("label")].find((one) => one.textContent === label);
  const found = named && document.getElementById(named.htmlFor);
  return found instanceof HTMLInputElement || found instanceof HTMLTextAreaElement ? found : null;
}
async function type(page: Element, label: string, text: string): Promise<void> {
  await until(() => box(page, label) !== null);
  const into = box(page, label);
  if (into) into.value = text;
  into?.dispatchEvent(new Event("input", { bubbles: true }));
}
/** A finger that goes from a field to a button takes the focus along. */
function tapAway(page: Element, label: string, name: string): void {
  box(page, label)?.dispatchEvent(new FocusEvent("blur"));
  button(page, name).click();
}
function hide(): void {
  vi.spyOn(document, "visibilityState", "get").mockReturnValue("hidden");
  document.dispatchEvent(new Event("visibilitychange"));
  vi.restoreAllMocks();
}

beforeEach(() => {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
});
afterEach(takeAway);

describe("an answer in words", () => {
  it("is kept by going on, and taken back where it was typed", async () => {
    const { card, page } = await atCheck("words");
    await type(page, "In words", " Springs cut ");
    next(page);
    await until(() => step(page) === FELT);
    await until(() => made(card, SAID).length === 1);
    expect(stands(card, SAID)).toEqual({ is: "text", words: "Springs cut" });
    await until(() => page.querySelector(".undo-here") !== null);
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(() => step(page) === SAID && stands(card, SAID) === null);
    await has(page, "Keep");
    expect(box(page, "In words")?.value).toBe("");
  });

  it("is kept once: by Keep and Next in a row, and by leaving a second time", async () => {
    const { card, page } = await atCheck("words");
    await type(page, "In words", "Springs cut");
    await until(() => !button(page, "Keep").disabled);
    button(page, "Keep").click();
    next(page);
    await until(() => step(page) === FELT);
    await until(() => made(card, SAID).length === 1);
    button(page, "Previous check").click();
    await until(() => step(page) === SAID && box(page, "In words")?.value === "Springs cut");
    next(page);
    await until(() => step(page) === FELT);
    await card.keep("fact", "vehicle/make", { value: "after it all" });
    expect(made(card, SAID)).toHaveLength(1);
  });

  it("is kept when the page is hidden, and stays where it is", async () => {
    const { card, page } = await atCheck("words");
    await type(page, "In words", "Springs cut");
    hide();
    hide();
    await until(() => made(card, SAID).length === 1);
    next(page);
    await until(() => step(page) === FELT);
    await card.keep("fact", "vehicle/make", { value: "after it all" });
    expect(made(card, SAID)).toHaveLength(1);
  });

  it("is not kept by asking why it could not be checked", async () => {
    const { card, page } = await atCheck("words");
    await type(page, "In words", "Springs");
    button(page, "Could not check").click();
    await has(page, "No access");
    button(page, "No access").click();
    await until(() => made(card, SAID).length === 1);
    expect(made(card, SAID)[0]?.kind).toBe("not-checked");
  });
});

describe("a reason in words why a check could not be done", () => {
  const giveReason = async (page: Element) => {
    button(page, "Could not check").click();
    await has(page, "Other reason…");
    button(page, "Other reason…").click();
    await type(page, "In words", "Wheel nut seized");
  };

  it("is kept by leaving for the card", async () => {
    const { card, page } = await atCheck("rock");
    await giveReason(page);
    await toCard(page);
    await until(() => made(card, FELT).length === 1);
    expect(stands(card, FELT)).toEqual({ reason: "other", words: "Wheel nut seized" });
    await until(() => begun(page).length === 0);
  });

  it("that was put aside is not kept, and said to be begun", async () => {
    const { card, page } = await atCheck("rock");
    await giveReason(page);
    button(page, "Could not check").click();
    await until(() => box(page, "In words") === null);
    await toCard(page);
    await until(() => begun(page).length === 1);
    expect(begun(page)[0]).toContain("Wheel nut seized");
    expect(made(card, FELT)).toEqual([]);
  });
});

describe("a note", () => {
  it("without an answer is said to be begun, on the card and at the hand-in, and goes with the answer", async () => {
    const { card, page } = await atCheck("rock");
    button(page, "Note").click();
    await type(page, "Note", "Grease on the rim");
    next(page);
    await until(() => step(page) === "wheels/look/front-left/1");
    await toCard(page);
    await until(() => begun(page).length === 1);
    expect(begun(page)[0]).toContain("Note Front left · Rock the wheel. Is there play? Grease on the rim");
    here.value = routeOf(`/bay/${CARD}/hand-in`);
    await until(
      () => page.querySelector("h1")?.textContent === "Hand in to the desk" && begun(page).length === 1,
    );
    page.querySelector<HTMLButtonElement>(".half-written button")?.click();
    await until(() => step(page) === FELT);
    await until(() => page.querySelector(".choice:not([aria-disabled=true])") !== null);
    button(page, "No play felt").click();
    await until(() => made(card, FELT).length === 1);
    expect(stands(card, FELT)).toEqual({ is: "choice", choice: "none", note: "Grease on the rim" });
    here.value = routeOf(`/bay/${CARD}`);
    await until(() => page.querySelector(".card-screen") !== null);
    await until(() => begun(page).length === 0);
  });

  it("typed at an answered check goes with another answer tapped right after it", async () => {
    const { card, page } = await atCheck("rock");
    await card.keep("answer", FELT, { is: "choice", choice: "none" });
    await until(() => page.querySelector(".verdict") !== null);
    button(page, "Note").click();
    await type(page, "Note", "Only when cold");
    await until(() => page.querySelector(".choice:not([aria-disabled=true])") !== null);
    tapAway(page, "Note", "Clear play");
    await until(() => JSON.stringify(stands(card, FELT)).includes("clear"));
    expect(stands(card, FELT)).toEqual({ is: "choice", choice: "clear", note: "Only when cold" });
  });

  it("typed at an answered check is kept once by leaving, and can be taken back", async () => {
    const { card, page } = await atCheck("rock");
    await card.keep("answer", FELT, { is: "choice", choice: "none" });
    await until(() => page.querySelector(".verdict") !== null);
    button(page, "Note").click();
    await type(page, "Note", "Only when cold");
    tapAway(page, "Note", "Next check");
    await until(() => made(card, FELT).length === 2);
    expect(stands(card, FELT)).toMatchObject({ choice: "none", note: "Only when cold" });
    await until(() => page.querySelector(".undo-here") !== null);
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(() => made(card, FELT).length === 3);
    expect(stands(card, FELT)).toEqual({ is: "choice", choice: "none" });
  });

  it("goes with the reason where the check could not be done", async () => {
    const { card, page } = await atCheck("rock");
    button(page, "Note").click();
    await type(page, "Note", "Cover riveted on");
    button(page, "Could not check").click();
    await has(page, "No access");
    button(page, "No access").click();
    await until(() => made(card, FELT).length === 1);
    expect(stands(card, FELT)).toEqual({ reason: "no-access", words: "Cover riveted on" });
  });

  it("goes with an answer given to all of a station at once", async () => {
    const { card, page } = await atCheck("rock");
    button(page, "Note").click();
    await type(page, "Note", "Grease on the rim");
    await until(() => page.querySelector(`[aria-label="${ALL}"]`) !== null);
    tapAway(page, "Note", ALL);
    await until(() => made(card, FELT).length === 1);
    expect(stands(card, FELT)).toEqual({ is: "choice", choice: "none", note: "Grease on the rim" });
  });

  it("is typed still when the answer it went with is undone", async () => {
    const { card, page } = await atCheck("rock");
    button(page, "Note").click();
    await type(page, "Note", "Grease on the rim");
    await until(() => page.querySelector(".choice:not([aria-disabled=true])") !== null);
    tapAway(page, "Note", "No play felt");
    await until(() => step(page) === "wheels/look/front-left/1");
    page.querySelector<HTMLButtonElement>(".undo-here")?.click();
    await until(() => step(page) === FELT && stands(card, FELT) === null);
    await has(page, "Note …");
    button(page, "Note …").click();
    await until(() => box(page, "Note")?.value === "Grease on the rim");
  });
});

describe("what became of a complaint", () => {
  const OUTCOME = `card/complaint/${CARD}/outcome`;
  const pick = (page: Element, name: string) =>
    [...page.querySelectorAll<HTMLElement>("[role=radio]")].find((one) => one.textContent === name)?.click();

  it("is kept by leaving once it is picked, with the words, and can be taken back", async () => {
    const { card, page } = await atPath(`complaint/${CARD}`);
    pick(page, "Not traced");
    await type(page, "In words", "Quiet all day");
    await toCard(page);
    await until(() => made(card, OUTCOME).length === 1);
    expect(stands(card, OUTCOME)).toMatchObject({ outcome: "not-traced", words: "Quiet all day" });
    await until(() => page.querySelector(".undo") !== null);
    button(page, "Undo").click();
    await until(() => stands(card, OUTCOME) === null);
  });

  it("is kept once by Keep, which leaves the screen", async () => {
    const { card, page } = await atPath(`complaint/${CARD}`);
    pick(page, "Not traced");
    await until(() => !button(page, "Keep").disabled);
    button(page, "Keep").click();
    await until(() => pathOf(here.value) === `/bay/${CARD}`);
    await card.keep("fact", "vehicle/make", { value: "after it all" });
    expect(made(card, OUTCOME)).toHaveLength(1);
  });

  it("in words only is said to be begun", async () => {
    const { card, page } = await atPath(`complaint/${CARD}`);
    await type(page, "In words", "Quiet all day");
    await toCard(page);
    await until(() => begun(page).length === 1);
    expect(begun(page)[0]).toContain("Quiet all day");
    expect(made(card, OUTCOME)).toEqual([]);
    page.querySelector<HTMLButtonElement>(".half-written button")?.click();
    await until(() => box(page, "In words")?.value === "Quiet all day");
  });
});

describe("what only a person can decide to keep", () => {
  it("is said to be begun: digits, a finding, work, a refusal, words to the desk, a field that is not right", async () => {
    const { bay, page } = await atPath("");
    const finding = { title: "Wiper torn", plain: "", note: "", grade: "minor", photos: [] };
    const drafts: Record<string, unknown> = {
      [`${CARD}/wheels/play/front-left/1`]: { typed: "0.8", repeats: [] },
      [`${CARD}/finding/x`]: finding,
      [`${CARD}/finding/${BEGUN}`]: "x",
      [`${CARD}/finding/at/wheels/play/front-left/declined`]: "Within the maker's figure",
      [`${CARD}/work/${WORK}`]: { words: "Hub changed", parts: [] },
      [`${CARD}/stage`]: "Left side",
      [`${CARD}/customer/email`]: "no address",
    };
    for (const [key, draft] of Object.entries(drafts)) await bay.store.keepDraft(key, draft);
    here.value = routeOf(`/bay/${CARD}/findings`);
    await until(() => page.querySelector(".card-screen") === null);
    here.value = routeOf(`/bay/${CARD}`);
    await until(() => begun(page).length === 6);
    expect(begun(page).sort()).toEqual([
      "Answer Front left · How far does the rim move? 0.8",
      "Book in no address",
      "Decline Front left · How far does the rim move? Within the maker's figure",
      "Finding Wiper torn",
      "Words to the desk Left side",
      "Work done Hub changed",
    ]);
  });

  it("is not said where nothing was typed, or what was typed was wiped out again", async () => {
    const { bay, page } = await atPath("findings");
    const drafts: Record<string, unknown> = {
      [`${CARD}/wheels/play/front-left/1`]: { typed: "", repeats: [], unit: "mm" },
      [`${CARD}/finding/x`]: { title: " ", plain: "", note: "", grade: "minor", photos: [] },
      [`${CARD}/work/${BEGUN}`]: WORK,
      [`note/${CARD}/${FELT}`]: " ",
      [`${CARD}/stage`]: "",
      [`${CARD}/stays/in/sight/1`]: "of a checklist that was taken off",
      [`${CARD}/customer/name`]: "Ada",
    };
    for (const [key, draft] of Object.entries(drafts)) await bay.store.keepDraft(key, draft);
    here.value = routeOf(`/bay/${CARD}`);
    await until(() => begun(page).length > 0);
    expect(begun(page)).toEqual(["Book in Ada"]);
  });
});
