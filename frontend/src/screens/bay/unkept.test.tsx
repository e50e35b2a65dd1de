/** A photo that finds no room stays on the screen, readings go in meanwhile, and it can be kept later. */
import { afterEach, expect, test } from "vitest";
import type { Captured } from "../../capture/photo";
import type { Bay } from "./context";
import type { OpenCard } from "./open-card";
import { Thumbs } from "./photos";
import { useTaking } from "./taking";
import { button, CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";
import { UnkeptPhotos } from "./unkept-photos";
import { keepOrHold, unkeptOf } from "./unkept";

const { put } = IDBObjectStore.prototype;
const { createObjectURL, revokeObjectURL } = URL;

afterEach(async () => {
  await takeAway();
  unkeptOf({ id: CARD }).value = [];
  IDBObjectStore.prototype.put = put;
  Object.assign(URL, { createObjectURL, revokeObjectURL });
});

/** A phone without room for photos, and how often one was tried. */
function fullForPhotos(): { tries: number } {
  const seen = { tries: 0 };
  IDBObjectStore.prototype.put = function full(...given: Parameters<typeof put>) {
    if (this.name !== "blobs") return put.apply(this, given);
    seen.tries += 1;
    throw new DOMException("no room", "QuotaExceededError");
  };
  return seen;
}

async function tookTwoOnAFullPhone() {
  // What this test's page lacks and every browser has.
  Object.assign(URL, { createObjectURL: () => "blob:picture", revokeObjectURL: () => undefined });
  Element.prototype.scrollIntoView = () => undefined;
  let count = 0;
  const preparePhoto = (): Promise<Captured> => {
    const bytes = new TextEncoder().encode(`photo ${(count += 1)}`).buffer;
    const sha256 = count.toString(16).padStart(64, "0");
    return Promise.resolve({ ok: true, bytes, mime: "image/jpeg", sha256, width: 4, height: 3 });
  };
  const bay: Bay = { ...makeBay(), preparePhoto };
  const card = await walkedCard(bay);
  let take: (picture: Blob) => unknown = () => undefined;
  function Screen() {
    const taking = useTaking({ card, about: null, round: 1 });
    take = taking.take;
    return (
      <>
        <UnkeptPhotos card={card} />
        <Thumbs card={card} photos={card.state.value?.photos ?? []} />
      </>
    );
  }
  const page = show(bay, <Screen />);
  const seen = fullForPhotos();
  for (let shot = 0; shot < 2; shot += 1) take(new Blob(["x"]));
  await until(() => unkeptOf(card).value.length === 2);
  return { card, page, seen };
}

test("photos that found no room are shown, and a reading taken meanwhile is kept", async () => {
  const { card, page } = await tookTwoOnAFullPhone();
  expect(page.textContent).toContain("These 2 photos and sounds are not kept");
  await until(() => page.querySelectorAll("img").length === 2);
  expect(card.fault.value).toBeNull();
  const slot = "wheels/rock/front-left/1";
  expect(await card.keep("answer", slot, { is: "choice", choice: "none" })).not.toBeNull();
  expect(card.state.value?.photos).toEqual([]);
});

test("each can be tried again, and is a photo of the card once there is room", async () => {
  const { card, page, seen } = await tookTwoOnAFullPhone();
  button(page, "Keep it").click();
  await until(() => seen.tries === 3);
  await until(() => page.querySelectorAll("button").length === 4 && !page.textContent.includes("One moment"));
  expect(unkeptOf(card).value).toHaveLength(2);
  IDBObjectStore.prototype.put = put;
  button(page, "Keep it").click();
  await until(() => card.state.value?.photos.length === 1);
  expect(unkeptOf(card).value).toHaveLength(1);
  expect(page.textContent).toContain("This photo or sound is not kept");
});

test("one that is let go is gone, and the others stay", async () => {
  const { card, page } = await tookTwoOnAFullPhone();
  button(page, "Let it go").click();
  await until(() => unkeptOf(card).value.length === 1);
  expect(card.state.value?.photos).toEqual([]);
});

test("a photo that the phone has let go is said to be at the workshop while that cannot be asked", async () => {
  const { card, page } = await tookTwoOnAFullPhone();
  IDBObjectStore.prototype.put = put;
  button(page, "Keep it").click();
  await until(() => page.querySelector(".thumb-button img") !== null);
  page.querySelector(".thumb-button img")?.dispatchEvent(new Event("error"));
  await until(() => page.textContent.includes("At the workshop"));
  expect(card.state.value?.photos).toHaveLength(1);
});

test("a sound that found no room is held as a photo is, and kept once there is room", async () => {
  const card = await walkedCard(makeBay());
  fullForPhotos();
  const id = card.newId();
  const bytes = new ArrayBuffer(8);
  const blob = { blob: "a".repeat(64), mime: "audio/wav", bytes: 8, seconds: 1 };
  const body = { ...blob, about: null, round: 1, caption: "" };
  const keep = (now: OpenCard) => now.keepWithBlob("sound", `sound/${id}`, body, bytes);
  expect(await keepOrHold(card, id, () => null, keep)).toBeNull();
  Element.prototype.scrollIntoView = () => undefined;
  const page = show(makeBay(), <UnkeptPhotos card={card} />);
  expect(page.querySelector("li")?.textContent).toContain("Sound");
  IDBObjectStore.prototype.put = put;
  button(page, "Keep it").click();
  await until(() => card.state.value?.sounds.length === 1);
  expect(unkeptOf(card).value).toEqual([]);
});

test("one that waits for room is there again when its card was closed and is opened again", async () => {
  const { card } = await tookTwoOnAFullPhone();
  card.close();
  IDBObjectStore.prototype.put = put;
  const bay = makeBay();
  const again = await walkedCard(bay);
  const page = show(bay, <UnkeptPhotos card={again} />);
  button(page, "Keep it").click();
  await until(() => again.state.value?.photos.length === 1);
  expect(unkeptOf(again).value).toHaveLength(1);
});
