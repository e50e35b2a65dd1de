import { expect, test } from "vitest";
import { watchLeaving, watchPage } from "./page";
import type { Event as SyncEvent } from "./state";

function watched(): { heard: SyncEvent[]; show: (state: "visible" | "hidden") => void } {
  const heard: SyncEvent[] = [];
  watchPage(document, window, (event) => heard.push(event));
  const show = (state: "visible" | "hidden") => {
    Object.defineProperty(document, "visibilityState", { value: state, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  };
  return { heard, show };
}

test("coming to the front, going away and a network that appears are each told to the sender", () => {
  const { heard, show } = watched();
  show("hidden");
  show("visible");
  window.dispatchEvent(new Event("online"));
  expect(heard).toEqual([{ is: "hidden" }, { is: "woke", why: "focus" }, { is: "woke", why: "online" }]);
});

test("a network that goes away is told to nobody: only an answer that fails to come counts", () => {
  const { heard } = watched();
  window.dispatchEvent(new Event("offline"));
  expect(heard).toEqual([]);
});

test("the store rests while the page is left, and is awake when it comes back", () => {
  const told: string[] = [];
  watchLeaving(window, { rest: () => told.push("rest"), wake: () => told.push("wake") });
  window.dispatchEvent(new Event("pagehide"));
  window.dispatchEvent(new Event("pageshow"));
  expect(told).toEqual(["rest", "wake"]);
});
