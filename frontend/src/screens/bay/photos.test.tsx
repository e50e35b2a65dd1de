/** Promises of photos: bursts, retakes, captions, files from the gallery, the photo as found. */
import { afterEach, describe, expect, it } from "vitest";
import type { Captured } from "../../capture/photo";
import { refuse } from "../../capture/refusals";
import { captionWords, stepOf, toggleWord } from "./caption-words";
import type { Bay } from "./context";
import type { OpenCard } from "./open-card";
import { asFoundOf, PhotoFile, Thumbs } from "./photos";
import { useTaking, type PhotoAbout } from "./taking";
import { BOOK, button, makeBay, show, takeAway, until, walkedCard } from "./testing";

const SLOT = "wheels/rock/front-left/1";
const AFTER = "wheels/rock/front-left/2";

/** A bay whose photos are as small as their name is long; `busy` counts those being made ready at once. */
function bayWithPhotos() {
  const busy = { now: 0, most: 0, refuseNext: false };
  let count = 0;
  const preparePhoto = async (): Promise<Captured> => {
    busy.now += 1;
    busy.most = Math.max(busy.most, busy.now);
    await new Promise((resolve) => setTimeout(resolve));
    busy.now -= 1;
    if (busy.refuseNext) return refuse("heic");
    const bytes = new TextEncoder().encode(`photo ${(count += 1)}`).buffer;
    const sha256 = count.toString(16).padStart(64, "0");
    return { ok: true, bytes, mime: "image/jpeg", sha256, width: 4, height: 3 };
  };
  const bay: Bay = { ...makeBay(), preparePhoto };
  return { bay, busy };
}

function Taker({ about, hand }: { about: PhotoAbout; hand: (take: (picture: Blob) => unknown) => void }) {
  const { take, trouble, kept } = useTaking(about);
  hand(take);
  return (
    <p>
      {kept} {trouble}
    </p>
  );
}

async function taker(extra: Partial<PhotoAbout> = {}) {
  const { bay, busy } = bayWithPhotos();
  const card = await walkedCard(bay);
  let take: (picture: Blob) => unknown = () => undefined;
  const about = { card, about: SLOT, round: 1, ...extra };
  const page = show(bay, <Taker about={about} hand={(given) => (take = given)} />);
  return { bay, busy, card, page, take: () => take(new Blob(["x"])) };
}
const photos = (card: OpenCard) => card.state.value?.photos ?? [];

afterEach(takeAway);

describe("a burst of photos", () => {
  it("keeps every one, and makes them ready one after the other", async () => {
    const { card, busy, take } = await taker();
    for (let shot = 0; shot < 5; shot += 1) take();
    await until(() => photos(card).length === 5);
    expect(busy.most).toBe(1);
    expect(new Set(photos(card).map((photo) => photo.body.blob)).size).toBe(5);
  });

  it("goes on after a picture that cannot be read, which is refused in a sentence", async () => {
    const { card, busy, page, take } = await taker();
    busy.refuseNext = true;
    take();
    await until(() => page.textContent.includes("HEIC"));
    busy.refuseNext = false;
    take();
    await until(() => photos(card).length === 1);
  });
});

describe("a photo taken again", () => {
  it("stands in the place of the old one with its caption, and undo brings the old one back", async () => {
    const first = await taker({ caption: "Front left" });
    first.take();
    await until(() => photos(first.card).length === 1);
    const [old] = photos(first.card);
    if (!old) throw new Error("no photo");
    let take: (picture: Blob) => unknown = () => undefined;
    const about = { card: first.card, about: SLOT, round: 1, caption: old.body.caption, instead: old };
    show(first.bay, <Taker about={about} hand={(given) => (take = given)} />);
    take(new Blob(["y"]));
    await until(() => photos(first.card)[0]?.body.blob !== old.body.blob);
    expect(photos(first.card)).toHaveLength(1);
    expect(photos(first.card)[0]).toMatchObject({ slot: old.slot, body: { caption: "Front left" } });
    await first.card.takeAllBack(first.card.undo.value?.kept ?? []);
    expect(photos(first.card)[0]?.body.blob).toBe(old.body.blob);
  });
});

describe("a caption", () => {
  it("is picked from the words of the check", async () => {
    const card = await walkedCard(makeBay());
    const step = card.state.value && stepOf(card.state.value, SLOT);
    const words = captionWords(step, []);
    expect(words.slice(0, 3)).toEqual(["Front left", "No play felt", "Wheel bearing play"]);
    expect(words).toContain("wheel");
    expect(
      captionWords(
        null,
        BOOK.stations.map((one) => one.title),
      ),
    ).toContain("Front left wheel");
    expect(toggleWord(toggleWord("", "Front left"), "wheel")).toBe("Front left, wheel");
    expect(toggleWord("Front left, wheel", "Front left")).toBe("wheel");
  });
});

describe("a file", () => {
  it("may come from the gallery, several at once", () => {
    const page = show(makeBay(), <PhotoFile name="From a file" onPicked={() => undefined} />);
    const input = page.querySelector("input");
    expect(input?.hasAttribute("capture")).toBe(false);
    expect(input?.multiple).toBe(true);
  });
});

describe("the photo as found", () => {
  it("is there for the same check after work, and only then", async () => {
    const { card, take, bay } = await taker();
    take();
    await until(() => photos(card).length === 1);
    const state = card.state.value;
    if (!state) throw new Error("no state");
    expect(asFoundOf(state, AFTER)).toHaveLength(1);
    expect(asFoundOf(state, SLOT)).toEqual([]);
    expect(asFoundOf(state, null)).toEqual([]);
    const page = show(bay, <Thumbs card={card} photos={asFoundOf(state, AFTER)} />);
    expect(button(page, "Photo 1, look closer")).toBeDefined();
  });
});
