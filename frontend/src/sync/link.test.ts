// @vitest-environment node
import { describe, expect, test } from "vitest";
import { linkOf, whyPhotosWait } from "./link";
import { aBlob, Talk } from "../../tests/support/talk";

describe("the link", () => {
  test.each([
    [{ type: "cellular", effectiveType: "4g" }, "mobile"],
    [{ type: "wifi", effectiveType: "4g", saveData: true }, "mobile"],
    [{ type: "bluetooth" }, "mobile"],
    [{ type: "wifi", effectiveType: "2g" }, "slow"],
    [{ effectiveType: "3g" }, "slow"],
    [{ type: "wifi", effectiveType: "4g" }, "good"],
    [{ effectiveType: "4g", saveData: false }, "good"],
    [{}, null],
    [undefined, null],
  ])("told as %o is %s", (connection, link) => {
    expect(linkOf(connection)).toBe(link);
  });

  test("holds photos back only as the person chose, and one nobody knows counts as paid for", () => {
    const links = ["good", "mobile", "slow", null] as const;
    const waits = (choice: "always" | "good-link" | "asked") =>
      links.map((link) => whyPhotosWait(choice, link));
    expect(waits("always")).toEqual([null, null, null, null]);
    expect(waits("good-link")).toEqual([null, "mobile", "slow", "unknown"]);
    expect(waits("asked")).toEqual(["asked", "asked", "asked", "asked"]);
  });
});

/** A phone with photos to send, whose owner chose that they wait on a link such as this one. */
function onMobileData(entries = 0): Talk {
  const talk = new Talk();
  talk.link = "mobile";
  return talk.start({ ...PHOTOS, entries });
}

const PHOTOS = { blobs: 12, blob: aBlob(), photos: "good-link" } as const;
const ROUND = [{ of: "refresh" }, { of: "pull", more: false }] as const;

describe("on mobile data", () => {
  test("readings are sent and others' work is fetched, and no photo goes", () => {
    const talk = onMobileData(3);
    expect(talk.step).toMatchObject({ do: "push" });
    talk.comesBack({ of: "push", sent: 3, settled: 3 }, { ...PHOTOS, compare: ["c"] });
    for (const outcome of ROUND) talk.comesBack(outcome, { ...PHOTOS, compare: ["c"] });
    expect(talk.step).toMatchObject({ do: "compare" });
    expect(talk.comesBack({ of: "compare", card: "c", agrees: true }, PHOTOS).step).toBeNull();
  });

  test("photos go as soon as the browser tells of a better link", () => {
    const talk = onMobileData();
    for (const outcome of ROUND) talk.comesBack(outcome, PHOTOS);
    expect(talk.hear({ is: "woke", why: "link" }).step).toBeNull();
    talk.link = "good";
    expect(talk.hear({ is: "woke", why: "link" }).step).toMatchObject({ do: "put-piece" });
  });

  test("a word lets them go until none waits, and the next ones wait again", () => {
    const talk = onMobileData();
    for (const outcome of ROUND) talk.comesBack(outcome, PHOTOS);
    expect(talk.hear({ is: "photos-let" }).step).toMatchObject({ do: "pull" });
    expect(talk.comesBack({ of: "pull", more: false }, PHOTOS).step).toMatchObject({ do: "put-piece" });
    const held = { of: "held", sha256: "ab", bytes: 300_000, moved: true, complete: true } as const;
    expect(talk.comesBack(held, { ...PHOTOS, blobs: 11 }).step).toMatchObject({ do: "put-piece" });
    expect(talk.comesBack(held, { photos: "good-link" }).step).toBeNull();
    talk.queue = { ...talk.queue, ...PHOTOS, blobs: 1 };
    expect(talk.hear({ is: "woke", why: "entry" }).step).toBeNull();
  });

  test("a link that turns bad between two pieces of a photo stops it there, and what arrived counts", () => {
    const talk = new Talk().start().allGoesWell();
    talk.link = "good";
    talk.queue = { ...talk.queue, ...PHOTOS };
    expect(talk.hear({ is: "woke", why: "entry" }).step).toMatchObject({ do: "put-piece", from: 0 });
    talk.link = "slow";
    const piece = { of: "held", sha256: "ab", bytes: 100_000, moved: true, complete: false } as const;
    const rest = { ...PHOTOS, blob: aBlob({ held: 100_000 }) };
    expect(talk.comesBack(piece, rest).step).toBeNull();
    talk.link = "good";
    expect(talk.hear({ is: "woke", why: "link" }).step).toMatchObject({ do: "put-piece", from: 100_000 });
  });

  test("a hidden phone sets no timer for photos that wait for another link", () => {
    const talk = onMobileData();
    for (const outcome of ROUND) talk.comesBack(outcome, PHOTOS);
    expect(talk.hear({ is: "hidden" }).until).toBeNull();
  });
});
