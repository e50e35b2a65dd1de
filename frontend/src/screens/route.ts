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

/** The screen that led to the present one; null at the start and after the browser's own back. */
let cameFrom: Route | null = null;

/** Where a screen that may be opened from anywhere leads back to. */
export function openedFrom(): Route | null {
  return cameFrom;
}

/** Goes to a screen; `instead` leaves no trace in the way back. */
export function go(route: Route, instead = false): void {
  const path = pathOf(route);
  if (instead) history.replaceState(null, "", path);
  else {
    cameFrom = here.peek();
    history.pushState(null, "", path);
  }
  here.value = routeOf(path);
  window.scrollTo(0, 0);
}

/** Follows the browser's own back and forward; returns the undo of that. */
export function followHistory(): () => void {
  const moved = () => {
    cameFrom = null;
    here.value = routeOf(location.pathname);
  };
  window.addEventListener("popstate", moved);
  return () => window.removeEventListener("popstate", moved);
}
