/** Promises of a finding that was kept in another language than the one the book on this phone speaks. */
import { signal } from "@preact/signals";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { sha256 } from "../../journal/sha256";
import type { FindingBody } from "../../journal/types";
import { DeskContext } from "../desk/context";
import { FindingSheet } from "../desk/finding";
import { here, routeOf } from "../route";
import { OnCard, type CardRoute } from "./on-card";
import { BOOK, button, CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";

const ABOUT = "wheels/play/front-left";
const SLOT = `finding/at/${ABOUT}`;
const SPANISH = "La rueda se mueve demasiado.";
const SENTENCES = ["The wheel moves too far.", SPANISH].map((one) => sha256(one).slice(0, 8));
const KEPT_IN_SPANISH: FindingBody = {
  title: "Holgura en la llanta",
  plain: SPANISH,
  grade: "major",
  about: ABOUT,
  place: "front-left",
  complaints: [],
  photos: [],
  proposed: { grade: "major", title: "Holgura en la llanta", limit: "rim-play" },
  note: "",
};

beforeEach(() => {
  window.scrollTo = () => undefined;
  Element.prototype.scrollIntoView = () => undefined;
});
afterEach(takeAway);

/** A card with a finding that a phone speaking Spanish kept, on a phone whose book speaks English. */
async function cardWith(change: Partial<FindingBody>, sentences = SENTENCES) {
  const bay = makeBay({ ...BOOK, sentences });
  const card = await walkedCard(bay);
  await bay.store.keepDraft(`cautions-read/${CARD}`, ["lifted"]);
  await card.keep("answer", `${ABOUT}/1`, { is: "number", value: 0.8, unit: "mm" });
  await card.keep("finding", SLOT, { ...KEPT_IN_SPANISH, ...change });
  await until(() => card.state.value?.findings.length === 1);
  const shown = () => card.state.value?.findings[0]?.entry.body;
  return { bay, card, shown };
}

describe("what was taken from a check", () => {
  it("is told in the language of the book at hand, the title and the sentence", async () => {
    const { shown } = await cardWith({});
    expect(shown()).toMatchObject({ title: "Play at the rim", plain: "The wheel moves too far." });
  });

  it("is told so of an option too, whose sentence may be that of the check", async () => {
    const rock = {
      about: "wheels/rock/front-left",
      proposed: { grade: "major", title: "X", limit: "clear" },
    };
    const { shown } = await cardWith({ ...rock, title: "X", plain: "Y" } as Partial<FindingBody>, [
      sha256("Y").slice(0, 8),
    ]);
    expect(shown()).toMatchObject({ title: "Wheel bearing play", plain: "" });
  });

  it("is in the list and, when its grade is changed, is kept as it was shown", async () => {
    const { bay, card } = await cardWith({});
    here.value = routeOf(`/bay/${CARD}/findings`);
    const page = show(bay, <Screens bay={bay} />);
    await until(() => page.textContent.includes("Play at the rim"));
    expect(page.textContent).not.toContain("Holgura");
    button(page, "Play at the rim · Front leftMajor").click();
    await until(() => page.querySelector("[role=radio]") !== null);
    const radios = [...page.querySelectorAll<HTMLElement>("[role=radio]")];
    radios.find((one) => one.textContent.startsWith("Dangerous"))?.click();
    await until(
      () => page.querySelector("[aria-checked=true]")?.textContent.startsWith("Dangerous") === true,
    );
    button(page, "Keep finding").click();
    await until(() => card.standing(SLOT)?.replaces.length === 1);
    expect(card.standing(SLOT)?.body).toMatchObject({
      grade: "dangerous",
      title: "Play at the rim",
      proposed: { title: "Play at the rim" },
    });
  });

  it("is read at the desk by a foreman of another language, with who kept it", async () => {
    const { bay, card } = await cardWith({});
    const state = card.state.value;
    const [finding] = state?.findings ?? [];
    if (!state || !finding) throw new Error("no finding");
    const desk = { api: bay.services.api, names: signal(new Map<string, string>()), pull: () => undefined };
    const page = show(
      bay,
      <DeskContext.Provider value={desk}>
        <FindingSheet card={card} state={state} finding={finding} />
      </DeskContext.Provider>,
    );
    const trail = page.querySelector<HTMLDetailsElement>("details.desk-trail");
    if (!trail) throw new Error("no trail");
    trail.open = true;
    await until(() => trail.querySelector("ol") !== null);
    expect(trail.textContent).toContain("Play at the rim (Major)");
    expect(page.textContent).not.toMatch(/Holgura|rueda/);
  });
});

describe("what a person wrote", () => {
  it("stays, the title or the sentence, each for itself", async () => {
    const mine = await cardWith({ title: "Holgura grande, se oye" });
    expect(mine.shown()).toMatchObject({
      title: "Holgura grande, se oye",
      plain: "The wheel moves too far.",
    });
    const ours = await cardWith({ plain: "Se nota al girar." });
    expect(ours.shown()).toMatchObject({ title: "Play at the rim", plain: "Se nota al girar." });
  });

  it("stays in a finding by hand, even where a check says the same", async () => {
    const { shown } = await cardWith({ about: null, place: null, proposed: null });
    expect(shown()).toMatchObject({ title: "Holgura en la llanta", plain: SPANISH });
  });

  it("stays as kept where the limit is one this book does not know", async () => {
    const { shown } = await cardWith({ proposed: { ...proposed(), limit: "gone" } });
    expect(shown()?.title).toBe("Holgura en la llanta");
  });
});

function proposed() {
  return { grade: "major" as const, title: "Holgura en la llanta", limit: "" };
}

function Screens({ bay }: { bay: ReturnType<typeof makeBay> }) {
  return <OnCard bay={bay} route={here.value as CardRoute} />;
}
