// What is about to be tapped stays where it is while the page grows above the screen.
import { render } from "preact";
import { act } from "preact/test-utils";
import { afterEach, expect, it, vi } from "vitest";
import { useSteady } from "./steady";

const HEIGHT_PX = 100;

function Rows({ count }: { count: number }) {
  const part = useSteady<HTMLElement>();
  return <section ref={part} data-count={count} />;
}

/** A part of the page whose upper edge lies at `top_px`, with as many rows as it says. */
function pageAt(top_px: number) {
  vi.stubGlobal("CSS", { supports: () => false });
  const scrolled = vi.spyOn(window, "scrollBy").mockImplementation(() => undefined);
  vi.spyOn(HTMLElement.prototype, "getBoundingClientRect").mockImplementation(function (this: HTMLElement) {
    return new DOMRect(0, top_px, 320, HEIGHT_PX * Number(this.dataset["count"]));
  });
  const page = document.createElement("div");
  const shows = (count: number) => act(() => render(<Rows count={count} />, page));
  return { shows, scrolled };
}

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

it("goes down with what grew above the screen", async () => {
  const { shows, scrolled } = pageAt(-500);
  await shows(1);
  expect(scrolled).not.toHaveBeenCalled();
  await shows(2);
  expect(scrolled.mock.calls).toEqual([[0, HEIGHT_PX]]);
  await shows(2);
  expect(scrolled).toHaveBeenCalledTimes(1);
});

it("leaves alone what grows in sight", async () => {
  const { shows, scrolled } = pageAt(0);
  await shows(1);
  await shows(2);
  expect(scrolled).not.toHaveBeenCalled();
});

it("leaves it to a browser that holds the page still itself", async () => {
  const { shows, scrolled } = pageAt(-500);
  vi.stubGlobal("CSS", { supports: () => true });
  await shows(1);
  await shows(2);
  expect(scrolled).not.toHaveBeenCalled();
});
