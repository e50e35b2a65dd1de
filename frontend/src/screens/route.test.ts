/** Promises of the address bar. */
import { describe, expect, it } from "vitest";
import { pathOf, routeOf, type Route } from "./route";

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
