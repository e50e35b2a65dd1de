/** Promises of writing a finding: what was changed or begun is never lost, and the way leads back to where one was. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { go, here, pathOf, routeOf } from "../route";
import { OnCard, type CardRoute } from "./on-card";
import { openCard, type OpenCard } from "./open-card";
import { button, CARD, CHECKLIST, makeBay, show, takeAway, until } from "./testing";

const PLAY = "wheels/play/front-left";

function Screens({ bay }: { bay: ReturnType<typeof makeBay> }) {
  return <OnCard bay={bay} route={here.value as CardRoute} />;
}

async function atPath(path: string) {
  const bay = makeBay();
  const card = openCard(bay, CARD);
  await bay.store.keepDraft(`cautions-read/${CARD}`, ["lifted"]);
  await card.keep("checklist-chosen", "card/checklist/wheels", { version: 1, sha256: CHECKLIST.sha256 });
  await card.keep("answer", `${PLAY}/1`, { is: "number", value: 0.8, unit: "mm" });
  await until(() => card.state.value?.proposals.length === 1);
  here.value = routeOf(`/bay/${CARD}/${path}`);
  return { bay, card, page: show(bay, <Screens bay={bay} />) };
}

const path = () => pathOf(here.value).replace(`/bay/${CARD}/`, "");
const shows = (page: Element, name: string) =>
  until(() => [...page.querySelectorAll("button")].some((one) => one.textContent.trim().startsWith(name)));
const pick = (page: Element, name: string) =>
  [...page.querySelectorAll<HTMLElement>("[role=radio]")]
    .find((one) => one.textContent.trim().startsWith(name))
    ?.click();
const findings = (card: OpenCard) => card.state.value?.findings.map((one) => one.entry.body) ?? [];

function type(page: Element, label: string, text: string): void {
  const named = [...page.querySelectorAll("label")].find((one) => one.textContent === label);
  const box = named && document.getElementById(named.htmlFor);
  if (!(box instanceof HTMLInputElement || box instanceof HTMLTextAreaElement))
    throw new Error(`no box "${label}"`);
  box.value = text;
  box.dispatchEvent(new Event("input", { bubbles: true }));
}

beforeEach(() => {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
});
afterEach(takeAway);

describe("a proposed finding", () => {
  it("that was changed is accepted as changed", async () => {
    const { card, page } = await atPath("findings");
    await shows(page, "Change");
    button(page, "Change").click();
    await shows(page, "Keep finding");
    pick(page, "Dangerous");
    button(page, "Back").click();
    await until(() => page.textContent.includes("Changed by you, not kept yet"));
    button(page, "Accept").click();
    await until(() => findings(card).length === 1);
    expect(findings(card)[0]).toMatchObject({ grade: "dangerous", proposed: { grade: "major" } });
  });

  it("that was opened from its check leads back there when it is kept", async () => {
    const { card, page } = await atPath(`walk/1/all/${PLAY}`);
    await shows(page, "Change");
    button(page, "Change").click();
    await shows(page, "Keep finding");
    expect(page.querySelector(".place")?.textContent).toBe("Front left");
    button(page, "Keep finding").click();
    await until(() => findings(card).length === 1);
    await until(() => path() === `walk/1/all/${PLAY}`);
  });

  it("that was opened from the list leads back to the list", async () => {
    const { page } = await atPath("findings");
    await shows(page, "Change");
    button(page, "Change").click();
    await shows(page, "Keep finding");
    button(page, "Keep finding").click();
    await until(() => path() === "findings");
  });
});

describe("something new that was begun and left", () => {
  it("is found again: a finding by hand, and a second one after it was kept", async () => {
    const { card, page } = await atPath("findings");
    await shows(page, "New finding by hand");
    button(page, "New finding by hand").click();
    await shows(page, "Keep finding");
    type(page, "What is wrong", "Wiper torn");
    button(page, "Back").click();
    await shows(page, "New finding by hand");
    button(page, "New finding by hand").click();
    await until(() => page.querySelector("textarea")?.value === "Wiper torn");
    button(page, "Keep finding").click();
    await until(() => findings(card).length === 1);
    await shows(page, "New finding by hand");
    button(page, "New finding by hand").click();
    await until(() => page.querySelector("textarea")?.value === "");
  });

  it("is found again: work, with the part that was typed and not added", async () => {
    const { card, page } = await atPath("");
    await shows(page, "Record work");
    button(page, "Record work").click();
    await shows(page, "Keep work done");
    type(page, "What was done", "Hub changed");
    type(page, "Part", "Hub with bearing");
    button(page, "Back").click();
    await shows(page, "Record work");
    button(page, "Record work").click();
    await until(() => page.querySelector("textarea")?.value === "Hub changed");
    button(page, "Keep work done").click();
    await until(() => card.state.value?.work.length === 1);
    expect(card.state.value?.work[0]?.body.parts).toEqual([
      { name: "Hub with bearing", state: "new", count: 1 },
    ]);
  });
});

describe("the choice of checklists", () => {
  it("is brought into sight, at the end of the booking-in as it is", async () => {
    const { page } = await atPath("");
    await shows(page, "Change checklists");
    const seen: Element[] = [];
    Element.prototype.scrollIntoView = function (this: Element) {
      seen.push(this);
    };
    button(page, "Change checklists").click();
    await until(() => seen.length > 0);
    expect(path()).toBe("book-in/checklists");
    expect(seen[0]?.querySelector("h2")?.textContent).toBe("Checklists");
    go({ at: "card", card: CARD });
  });

  it("says of a checklist left out by a slip how many answers come back with it", async () => {
    const { page } = await atPath("book-in/checklists");
    await until(() => page.querySelector("[role=checkbox]") !== null);
    page.querySelector<HTMLElement>("[role=checkbox]")?.click();
    await until(() =>
      page.textContent.includes("1 answer is kept and comes back when this is ticked again."),
    );
  });
});
