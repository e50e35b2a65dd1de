// @vitest-environment node
import { expect, it } from "vitest";
import type { CardState, EntryOf, Finding } from "../../journal/types";
import { mediaOf, otherMedia } from "./evidence-of";

type Photo = EntryOf<"photo">;

function photo(id: string, about: string | null): Photo {
  return { id, slot: `photo/${id}`, body: { about } } as unknown as Photo;
}

const arrival = photo("a", null);
const ofCheck = photo("b", "underbody/sills/left/1");
const ofOtherCheck = photo("c", "underbody/sills/left-rear/1");
const named = photo("d", null);
const ofFinding = photo("e", "finding/at/underbody/sills/left");
const all = [arrival, ofCheck, ofOtherCheck, named, ofFinding];
const finding = {
  entry: { slot: "finding/at/underbody/sills/left", body: { photos: ["d"], about: "underbody/sills/left" } },
} as unknown as Finding;

it("a finding shows the photos it names, those about it and those of its check, and no other place's", () => {
  expect(mediaOf(all, finding)).toEqual([ofCheck, named, ofFinding]);
});

it("what no finding shows is shown by itself", () => {
  const state = { findings: [finding] } as unknown as CardState;
  expect(otherMedia(all, state)).toEqual([arrival, ofOtherCheck]);
});
