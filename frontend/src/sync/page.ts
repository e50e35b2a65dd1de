/** Turns what happens to the page into the sender's events. */
import type { Event } from "./state";

/** `online` is only a hint that a try may be worth while; nothing is ever held back because of it. */
export function watchPage(page: Document, view: Window, tell: (event: Event) => void): void {
  page.addEventListener("visibilitychange", () => {
    tell(page.visibilityState === "visible" ? { is: "woke", why: "focus" } : { is: "hidden" });
  });
  view.addEventListener("focus", () => tell({ is: "woke", why: "focus" }));
  view.addEventListener("pageshow", (event) => {
    if (event.persisted) tell({ is: "woke", why: "focus" });
  });
  view.addEventListener("online", () => tell({ is: "woke", why: "online" }));
}

/** The store rests while the page is left: some browsers keep such a page, with whatever it had begun, in memory. */
export function watchLeaving(view: Window, store: { rest(): void; wake(): void }): void {
  view.addEventListener("pagehide", () => store.rest());
  view.addEventListener("pageshow", () => store.wake());
}
