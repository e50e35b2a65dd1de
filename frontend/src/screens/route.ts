/** The address bar as data: which screen, of which card, at which check. */
import { signal } from "@preact/signals";

export type Spot = { checklist: string; check: string; place: string };
export type Route =
  | { at: "cards" }
  | { at: "phone" }
  /** a new card, from the home screen's shortcut */
  | { at: "new" }
  /** photos shared from another app */
  | { at: "shared" }
  | { at: "desk"; rest: string }
  | { at: "card"; card: string }
  /** `part`: what of it is wanted, below its head */
  | { at: "book-in"; card: string; part?: "checklists" }
  | { at: "walk"; card: string; round: number; scope: string; spot: Spot | null }
  | { at: "steps"; card: string; round: number; scope: string }
  | { at: "findings"; card: string }
  | { at: "finding"; card: string; slot: string }
  | { at: "complaint"; card: string; complaint: string }
  | { at: "work"; card: string; work: string }
  | { at: "recheck"; card: string }
  | { at: "hand-in"; card: string };

/** All checklists of the card in one walk. */
export const EVERYTHING = "all";

/** The route of a path; a path nobody knows is the list of cards. */
export function routeOf(path: string): Route {
  const [first, card, screen, ...rest] = path.split("/").filter(Boolean).map(decodeURIComponent);
  if (first === "desk") return { at: "desk", rest: path };
  if (first !== "bay" || card === undefined) return { at: "cards" };
  if (card === "phone" || card === "new" || card === "shared") return { at: card };
  return cardRoute(card, screen ?? "", rest);
}

function cardRoute(card: string, screen: string, rest: string[]): Route {
  const [first = "", second = EVERYTHING] = rest;
  switch (screen) {
    case "book-in":
      return first === "checklists" ? { at: "book-in", card, part: first } : { at: "book-in", card };
    case "findings":
    case "recheck":
    case "hand-in":
      return { at: screen, card };
    case "finding":
      return { at: "finding", card, slot: rest.join("/") };
    case "complaint":
      return { at: "complaint", card, complaint: first };
    case "work-done":
      return { at: "work", card, work: first };
    case "steps":
      return { at: "steps", card, round: roundOf(first), scope: second };
    case "walk":
      return { at: "walk", card, round: roundOf(first), scope: second, spot: spotOf(rest.slice(2)) };
    default:
      return { at: "card", card };
  }
}

function roundOf(text: string): number {
  const round = Number.parseInt(text, 10);
  return round > 0 ? round : 1;
}

function spotOf([checklist, check, place]: string[]): Spot | null {
  return checklist && check && place ? { checklist, check, place } : null;
}

/** The path of a route; `routeOf(pathOf(r))` is `r`. */
export function pathOf(route: Route): string {
  switch (route.at) {
    case "cards":
      return "/bay";
    case "phone":
    case "new":
    case "shared":
      return `/bay/${route.at}`;
    case "desk":
      return route.rest;
    case "card":
      return `/bay/${route.card}`;
    case "walk": {
      const { spot } = route;
      const at = spot ? `/${spot.checklist}/${spot.check}/${spot.place}` : "";
      return `/bay/${route.card}/walk/${route.round}/${route.scope}${at}`;
    }
    case "book-in":
      return `/bay/${route.card}/book-in${route.part ? `/${route.part}` : ""}`;
    case "steps":
      return `/bay/${route.card}/steps/${route.round}/${route.scope}`;
    case "finding":
      return `/bay/${route.card}/finding/${route.slot}`;
    case "complaint":
      return `/bay/${route.card}/complaint/${route.complaint}`;
    case "work":
      return `/bay/${route.card}/work-done/${route.work}`;
    default:
      return `/bay/${route.card}/${route.at}`;
  }
}

/** Where the app is now. */
export const here = signal<Route>(routeOf(typeof location === "undefined" ? "/" : location.pathname));

/**
 * What the app leaves in each entry of the browser's history, where it outlives a reload: the paths of those below it, the
 * oldest first, and how far down (px) the screen was when another was opened above it.
 */
type Left = { trail?: string[]; y?: number };
const LONGEST_TRAIL = 40;
/** A browser that does not go back within this time mostly does not go at all. */
const BACK_MS = 500;

function left(): Left {
  return (history.state as Left | null) ?? {};
}

function trail(): string[] {
  return left().trail ?? [];
}

/** The screen that lies below the present one, to which the phone's own back leads; null when the app opened here. */
export function openedFrom(): Route | null {
  const below = trail().at(-1);
  return below === undefined ? null : routeOf(below);
}

/** Goes to a screen; `instead` leaves no trace in the way back. */
export function go(route: Route, instead = false): void {
  const path = pathOf(route);
  const now = pathOf(here.peek());
  overdue = null;
  // A screen above itself would have to be left twice.
  if (instead || path === now) history.replaceState(history.state, "", path);
  else {
    const below = [...trail(), now].slice(-LONGEST_TRAIL);
    history.replaceState({ ...left(), y: window.scrollY } satisfies Left, "");
    history.pushState({ trail: below } satisfies Left, "", path);
  }
  here.value = routeOf(path);
  window.scrollTo(0, 0);
}

/** Where a way back that was begun leads, until the browser has gone it. */
let awaited: Route | null = null;
/** Where one led that the browser had not gone in time, and may yet go. */
let overdue: Route | null = null;

/**
 * Goes back to a screen, so that the phone's own back does not lead forward again: in the browser's history where the
 * screen lies below, else in place of the present one.
 */
export function goBack(to: Route): void {
  if (awaited !== null) return;
  const steps = stepsBackTo(to);
  if (steps === 0) return go(to, true);
  awaited = to;
  const gone = () => {
    clearTimeout(timer);
    window.removeEventListener("popstate", gone);
    awaited = null;
    arrive(to);
  };
  const timer = setTimeout(() => {
    gone();
    overdue = to;
  }, BACK_MS);
  window.addEventListener("popstate", gone);
  history.go(-steps);
}

/** Shows a screen on the entry the browser is at: what lies there may be another check of the same walk. */
function arrive(at: Route): void {
  history.replaceState(history.state, "", pathOf(at));
  here.value = at;
  scrollAsLeft();
}

/** Goes to a screen from wherever one is: back to it where it lies below the present one, else on to it. */
export function goOver(to: Route): void {
  if (screenOf(to) === screenOf(here.peek())) go(to, true);
  else if (stepsBackTo(to) > 0) goBack(to);
  else go(to);
}

/** How many entries below the present one a screen lies; 0 when it does not. */
function stepsBackTo(to: Route): number {
  const screens = trail().map((path) => screenOf(routeOf(path)));
  const at = screens.lastIndexOf(screenOf(to));
  return at < 0 ? 0 : screens.length - at;
}

/** A walk is one screen, whichever check it shows. */
function screenOf(route: Route): string {
  if (route.at === "walk") return pathOf({ ...route, spot: null });
  return route.at === "book-in" ? pathOf({ at: route.at, card: route.card }) : pathOf(route);
}

/** The browser itself would scroll by what the screen before looks like. */
function scrollAsLeft(): void {
  const y = left().y ?? 0;
  requestAnimationFrame(() => window.scrollTo(0, y));
}

/** Follows the browser's own back and forward; returns the undo of that. */
export function followHistory(): () => void {
  const moved = () => {
    if (awaited !== null) return;
    const there = routeOf(location.pathname);
    const late = overdue;
    overdue = null;
    arrive(late !== null && screenOf(late) === screenOf(there) ? late : there);
  };
  history.scrollRestoration = "manual";
  window.addEventListener("popstate", moved);
  return () => window.removeEventListener("popstate", moved);
}
