/** For the tests of the bay: a small book, a real store over IndexedDB, and screens put on a real page. */
import { signal } from "@preact/signals";
import { render, type ComponentChildren } from "preact";
import type { Check, Checklist, Book } from "../../measure/book";
import { openStore } from "../../store/open";
import type { Me } from "../../store/types";
import { kept } from "../../sync/kept-signals";
import type { Services } from "../../sync/services";
import { NOTHING_KNOWN } from "../../sync/status";
import { makeApi } from "../../api/api";
import { BayContext, type Bay } from "./context";
import { openCard, type OpenCard } from "./open-card";

export const CARD = "019ab3ee-0000-7000-8000-000000000001";

export const ME: Me = {
  person: { id: "019ab3ee-0000-7000-8000-0000000000a1", name: "Ines Varga", role: "technician" },
  device: { id: "019ab3ee-0000-7000-8000-0000000000d1", name: "Phone" },
  workshop: { id: "019ab3ee-0000-7000-8000-0000000000b1", name: "Tern Street Garage", units: "metric" },
};

const BLANK = {
  how: ["Look closely."],
  plain: "",
  limits: [],
  cautions: [],
  photo: null,
  if_failed: null,
  only_if: null,
};

export const ROCK: Check = {
  ...BLANK,
  id: "rock",
  ask: "Rock the wheel. Is there play?",
  at: ["front-left", "front-right"],
  answer: {
    kind: "choice",
    options: [
      { id: "none", label: "No play felt", means: "in-order" },
      { id: "clear", label: "Clear play", means: "beyond", grade: "major", title: "Wheel bearing play" },
    ],
  },
};
export const PLAY: Check = {
  ...BLANK,
  id: "play",
  ask: "How far does the rim move?",
  at: ["front-left"],
  answer: { kind: "number", unit: "mm", decimals: 2, range: [0, 10], instruments: [] },
  limits: [
    {
      id: "rim-play",
      of: "value",
      above: 0.5,
      unit: "mm",
      grade: "major",
      title: "Play at the rim",
      plain: "The wheel moves too far.",
      source: "made up for this test",
      basis: "common practice",
      applies: "everywhere",
    },
  ],
};

export const CHECKLIST: Checklist = {
  id: "wheels",
  version: 1,
  sha256: "a".repeat(64),
  title: "Wheels",
  why: "",
  not_instead_of: "",
  cautions: ["lifted"],
  tools: [],
  stations: ["left", "right"],
  checks: [ROCK, PLAY],
};

export const BOOK: Book = {
  format: 1,
  sha256: "b".repeat(64),
  units: {
    atoms: { m: { factor: 1, dim: [1, 0, 0, 0, 0, 0, 0, 0], says: "metre", metric: true } },
    prefixes: { m: 0.001 },
  },
  instruments: {},
  cautions: {
    lifted: {
      id: "lifted",
      level: "danger",
      title: "Lifted vehicle",
      says: "Stands under it.",
      source: "test",
    },
  },
  stations: [
    { id: "left", title: "Front left wheel", lift: "half" },
    { id: "right", title: "Front right wheel", lift: "half" },
  ],
  places: {
    "front-left": {
      id: "front-left",
      title: "Front left",
      station: "left",
      side: "left",
      pair: "front-right",
    },
    "front-right": {
      id: "front-right",
      title: "Front right",
      station: "right",
      side: "right",
      pair: "front-left",
    },
  },
  methods: {},
  checklists: [CHECKLIST],
};

let stores = 0;

/** A bay of its own over a fresh store; its clock stands at `bay.clock.ms`. */
export function makeBay(book: Book = BOOK): Bay & { clock: { ms: number } } {
  const clock = { ms: 1_764_000_000_000 };
  const nowMs = () => clock.ms;
  let byte = 0;
  const randomBytes = (count: number) => Uint8Array.from({ length: count }, () => (byte = (byte + 37) % 251));
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
  const store = openStore({ now: nowMs, pause, channel: null, name: `bay-test-${(stores += 1)}` });
  const services: Services = {
    store,
    sender: { status: signal(NOTHING_KNOWN), tell: () => undefined, stop: () => undefined },
    api: makeApi(() => Promise.reject(new TypeError("no network in this test"))),
    ...kept(store),
    cleared: signal(false),
    room: { left: signal(null), look: () => undefined, ask: () => undefined },
    update: { ready: signal(false), apply: () => undefined },
    now: nowMs,
    random: randomBytes,
    newId: () => "",
    signIn: () => Promise.resolve({ is: "unreachable", why: "network" }),
    signOut: () => store.forgetMe(),
  };
  const { waiting } = services;
  const parts = { services, store, me: ME, book, nowMs, randomBytes, waiting };
  return {
    ...parts,
    clock,
    preparePhoto: () => Promise.reject(new Error("no camera")),
    hash: () => Promise.resolve(""),
  };
}

/** A card with the wheels' checklist chosen, read and ready. */
export async function walkedCard(bay: Bay): Promise<OpenCard> {
  const card = openCard(bay, CARD);
  await card.keep("checklist-chosen", "card/checklist/wheels", { version: 1, sha256: CHECKLIST.sha256 });
  await until(() => card.state.value?.checklists.length === 1);
  return card;
}

/** Takes the screen away and lets its last effects run, so that none fires after the test's page is gone. */
export async function takeAway(): Promise<void> {
  for (const page of document.body.children) render(null, page);
  for (let frame = 0; frame < 2; frame += 1)
    await new Promise<void>((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/** Puts a screen on the page. */
export function show(bay: Bay, screen: ComponentChildren): HTMLElement {
  const page = document.createElement("div");
  document.body.replaceChildren(page);
  render(<BayContext.Provider value={bay}>{screen}</BayContext.Provider>, page);
  return page;
}

/** Waits until something is so; fails after ten seconds, as the machine may be busy. */
export async function until(isSo: () => boolean, within_ms = 10_000): Promise<void> {
  const end = Date.now() + within_ms;
  while (!isSo()) {
    if (Date.now() > end) throw new Error(`not so within ${within_ms} ms: ${isSo.toString()}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** The button with these words or this name. */
export function button(page: Element, name: string): HTMLButtonElement {
  const found = [...page.querySelectorAll("button")].find(
    (one) => one.getAttribute("aria-label") === name || one.textContent.trim() === name,
  );
  if (!found) throw new Error(`no button "${name}" on: ${page.textContent}`);
  return found;
}
