/** Promises of the address bar. */
import { beforeEach, describe, expect, it, vi } from "vitest";
import { until } from "./bay/testing";
import { followHistory, go, goBack, goOver, here, openedFrom, pathOf, routeOf, type Route } from "./route";

const card = "019ab3ee-0000-7000-8000-000000000001";
const routes: Route[] = [
  { at: "cards" },
  { at: "phone" },
  { at: "new" },
  { at: "shared" },
  { at: "desk", rest: "/desk/x/1" },
  { at: "card", card },
  { at: "book-in", card },
  { at: "book-in", card, part: "checklists" },
  { at: "walk", card, round: 1, scope: "all", spot: null },
  {
    at: "walk",
    card,
    round: 2,
    scope: "bearing-play",
    spot: { checklist: "bearing-play", check: "rim-movement", place: "rear-left" },
  },
  { at: "steps", card, round: 2, scope: "all" },
  { at: "findings", card },
  { at: "finding", card, slot: "finding/at/bearing-play/rim-movement/rear-left" },
  { at: "complaint", card, complaint: "c1" },
  { at: "work", card, work: "w1" },
  { at: "recheck", card },
  { at: "hand-in", card },
];

describe("the address of a screen", () => {
  it.each(routes)("brings back the same screen after a reload: $at", (route) => {
    expect(routeOf(pathOf(route))).toEqual(route);
  });
  it("shows the cards for the bare address and for one nobody knows", () => {
    expect([routeOf("/"), routeOf("/bay"), routeOf("/nonsense/x")]).toEqual(Array(3).fill({ at: "cards" }));
  });
  it("takes a round that is no number as the first", () => {
    expect(routeOf(`/bay/${card}/steps/x/all`)).toEqual({ at: "steps", card, round: 1, scope: "all" });
  });
});

describe("the app's way back and the phone's own", () => {
  const cards: Route = { at: "cards" };
  const open: Route = { at: "card", card };
  const findings: Route = { at: "findings", card };
  const walk = (check: string): Route => {
    const spot = { checklist: "bearing-play", check, place: "rear-left" };
    return { at: "walk", card, round: 1, scope: "all", spot };
  };
  const phoneBack = async (leadsTo: Route) => {
    history.back();
    await until(() => shown() === pathOf(leadsTo));
  };
  const shown = () => (location.pathname === pathOf(here.value) ? location.pathname : "on the way");
  const isAt = (route: Route) => until(() => shown() === pathOf(route));

  beforeEach(() => {
    window.scrollTo = () => undefined;
    const stop = followHistory();
    history.pushState(null, "", pathOf(cards));
    here.value = cards;
    return stop;
  });

  it("agree where the screen lies below: the phone's back does not lead forward again", async () => {
    [open, findings].forEach((route) => go(route));
    goBack(open);
    await isAt(open);
    await phoneBack(cards);
  });

  it("go over several screens to the one that is meant", async () => {
    [open, { at: "recheck", card } as const, walk("rock")].forEach((route) => go(route));
    goBack(open);
    await isAt(open);
    await phoneBack(cards);
  });

  it("agree where it does not: the screen takes the place of the present one", async () => {
    go(findings);
    goBack(open);
    await isAt(open);
    await phoneBack(cards);
  });

  it("lead to the check that is meant, whichever check of the walk lies below", async () => {
    [open, walk("rock"), { at: "steps", card, round: 1, scope: "all" } as const].forEach((route) =>
      go(route),
    );
    goBack(walk("play"));
    await isAt(walk("play"));
    await phoneBack(open);
  });

  it("take one step for two quick taps", async () => {
    [open, findings].forEach((route) => go(route));
    goBack(open);
    goBack(cards);
    await isAt(open);
    expect(openedFrom()).toEqual(cards);
  });

  it("know after a reload where the screen was opened from", async () => {
    [open, findings].forEach((route) => go(route));
    go({ at: "finding", card, slot: "finding/x" });
    // what a reload leaves: the address and what the browser keeps with it
    here.value = routeOf(location.pathname);
    expect(openedFrom()).toEqual(findings);
    goBack(findings);
    await isAt(findings);
    expect(openedFrom()).toEqual(open);
  });

  it("come back to where the screen was left, and to the top of one that was not", async () => {
    const seen: unknown[] = [];
    go(open);
    vi.stubGlobal("scrollY", 640);
    go(findings);
    window.scrollTo = (...to: unknown[]) => void seen.push(to);
    await phoneBack(open);
    await until(() => seen.length > 0);
    go(findings);
    seen.length = 0;
    goBack(open);
    await until(() => seen.length > 0);
    vi.unstubAllGlobals();
    await phoneBack(cards);
    await until(() => seen.length > 1);
    expect(seen).toEqual([
      [0, 640],
      [0, 0],
    ]);
  });

  it("leave a screen that was opened twice in a row once", async () => {
    [open, findings, findings].forEach((route) => go(route));
    await phoneBack(open);
  });

  it("show the screen all the same where the browser does not go back", async () => {
    [open, findings].forEach((route) => go(route));
    vi.spyOn(history, "go").mockImplementation(() => undefined);
    goBack(open);
    await isAt(open);
  });

  it("show the check that is meant, however late the browser goes back", async () => {
    [open, walk("rock"), { at: "steps", card, round: 1, scope: "all" } as const].forEach((route) =>
      go(route),
    );
    const [trail, browser] = [
      history.state as unknown,
      vi.spyOn(history, "go").mockImplementation(() => undefined),
    ];
    goBack(walk("play"));
    await isAt(walk("play"));
    browser.mockRestore();
    expect(history.state).toEqual(trail);
    const gone = new Promise((done) => window.addEventListener("popstate", done, { once: true }));
    history.go(-1);
    await gone;
    await isAt(walk("play"));
    await phoneBack(open);
  });

  it("of what is undone from another screen lead to where one was", async () => {
    [open, walk("rock")].forEach((route) => go(route));
    goBack(open);
    await isAt(open);
    goOver(walk("rock"));
    expect(shown()).toBe(pathOf(walk("rock")));
    await phoneBack(open);
  });
});
