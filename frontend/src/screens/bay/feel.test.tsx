/** How the app feels is chosen once and stays. */
import { afterEach, expect, it } from "vitest";
import { asFeel, startFeel } from "./feel";
import { FeelChoice } from "./feel-choice";
import { makeBay, show, takeAway, until } from "./testing";

afterEach(takeAway);

const radio = (page: Element, name: string) =>
  [...page.querySelectorAll<HTMLButtonElement>("[role=radio]")].find((one) => one.textContent === name);

it("shows a choice at once and keeps it for the next start", async () => {
  const bay = makeBay();
  const root = document.documentElement;
  const page = show(bay, <FeelChoice />);
  radio(page, "Left")?.click();
  radio(page, "Glare")?.click();
  radio(page, "150 %")?.click();
  await until(() => root.dataset["text"] === "150");
  expect({ ...root.dataset }).toMatchObject({ hand: "left", theme: "glare", text: "150" });
  const next = { dataset: {} as DOMStringMap };
  await startFeel(bay.store, next);
  expect(next.dataset).toEqual({ hand: "left", theme: "glare", text: "150" });
});

it("falls back to the usual for what it does not know", () => {
  const usual = { hand: "right", text: "100", theme: "system", buzz: "on" };
  expect(asFeel(undefined)).toEqual(usual);
  expect(asFeel({ hand: "third", text: 125, theme: "dark" })).toEqual({ ...usual, theme: "dark" });
});
