/** Promises of the hand-in: what is open is said, and an empty card is not called a checked one. */
import { afterEach, expect, it } from "vitest";
import { HandIn } from "./hand-in";
import { openCard } from "./open-card";
import { CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";

afterEach(takeAway);

const nothing = () => undefined;

it("does not say that every check is answered where no checklist was chosen", async () => {
  const bay = makeBay();
  const card = openCard(bay, CARD);
  await until(() => card.state.value !== null);
  const state = card.state.peek();
  if (!state) throw new Error("no state");
  const page = show(bay, <HandIn card={card} state={state} onDone={nothing} />);
  expect(page.textContent).toContain("No checklist is chosen");
  expect(page.textContent).not.toContain("Every check has an answer");
});

it("counts the checks without an answer", async () => {
  const bay = makeBay();
  const card = await walkedCard(bay);
  const state = card.state.peek();
  if (!state) throw new Error("no state");
  const page = show(bay, <HandIn card={card} state={state} onDone={nothing} />);
  expect(page.textContent).toMatch(/\d+ checks without an answer/u);
  expect(page.textContent).not.toContain("No checklist is chosen");
});
