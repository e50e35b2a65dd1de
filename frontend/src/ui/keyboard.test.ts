/** The on-screen keyboard. */
import { expect, it } from "vitest";
import { coveredPx, watchKeyboard } from "./keyboard";

it("is told from the browser's bars, and from a page zoomed by hand", () => {
  expect(coveredPx(740, { height: 440, offsetTop: 0, scale: 1 })).toBe(300);
  expect(coveredPx(740, { height: 684, offsetTop: 0, scale: 1 })).toBe(0);
  expect(coveredPx(740, { height: 370, offsetTop: 0, scale: 2 })).toBe(0);
  expect(coveredPx(740, { height: 440, offsetTop: 60, scale: 1 })).toBe(240);
});

it("marks the page while it is up, and no longer after the end", () => {
  const view = Object.assign(new EventTarget(), { height: 740, offsetTop: 0, scale: 1 });
  const root = document.createElement("div");
  const end = watchKeyboard(view as unknown as VisualViewport, () => 740, root);
  view.height = 400;
  view.dispatchEvent(new Event("resize"));
  expect(root.dataset["keyboard"]).toBe("up");
  expect(root.style.getPropertyValue("--covered")).toBe("340px");
  view.height = 740;
  view.dispatchEvent(new Event("resize"));
  expect(root.dataset["keyboard"]).toBe("down");
  end();
  view.height = 400;
  view.dispatchEvent(new Event("resize"));
  expect(root.dataset["keyboard"]).toBe("down");
});
