/** How the app feels on this phone: which hand, how large the text, which colours, whether it shakes. */
import { signal, type ReadonlySignal } from "@preact/signals";
import type { Store } from "../../store/types";
import { setBuzzing } from "../../ui/buzz";

export const HANDS = ["right", "left"] as const;
export const TEXTS = ["100", "125", "150", "175", "200"] as const;
export const THEMES = ["system", "light", "dark", "glare"] as const;
export const BUZZES = ["on", "off"] as const;

export type Feel = {
  hand: (typeof HANDS)[number];
  /** percent */
  text: (typeof TEXTS)[number];
  /** glare: light with the greatest contrast there is */
  theme: (typeof THEMES)[number];
  buzz: (typeof BUZZES)[number];
};
type Shelf = Pick<Store, "setting" | "keepSetting">;
/** The page's root element, whose data the style sheets look at. */
type Root = { dataset: DOMStringMap };

const NAME = "feel";
const USUAL: Feel = { hand: "right", text: "100", theme: "system", buzz: "on" };
const now = signal<Feel>(USUAL);

export const feel: ReadonlySignal<Feel> = now;

/** Takes up what was chosen on this phone. */
export async function startFeel(store: Shelf, root: Root): Promise<void> {
  show(asFeel(await store.setting(NAME)), root);
}

/** Changes one thing at once, and for good. */
export async function changeFeel(change: Partial<Feel>, store: Shelf, root: Root): Promise<void> {
  show({ ...now.peek(), ...change }, root);
  await store.keepSetting(NAME, now.peek());
}

function show(chosen: Feel, root: Root): void {
  now.value = chosen;
  root.dataset["hand"] = chosen.hand;
  root.dataset["text"] = chosen.text;
  root.dataset["theme"] = chosen.theme;
  setBuzzing(chosen.buzz === "on");
}

/** What was kept, with the usual in place of what is missing or unknown. */
export function asFeel(kept: unknown): Feel {
  const found: Partial<Record<keyof Feel, unknown>> = typeof kept === "object" && kept !== null ? kept : {};
  return {
    hand: oneOf(HANDS, found.hand, USUAL.hand),
    text: oneOf(TEXTS, found.text, USUAL.text),
    theme: oneOf(THEMES, found.theme, USUAL.theme),
    buzz: oneOf(BUZZES, found.buzz, USUAL.buzz),
  };
}

function oneOf<T>(known: readonly T[], wanted: unknown, usual: T): T {
  return known.find((one) => one === wanted) ?? usual;
}
