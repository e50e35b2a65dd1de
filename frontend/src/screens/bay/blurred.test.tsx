/** A photo that looks blurred is kept all the same, and asked about once. */
import { afterEach, expect, test } from "vitest";
import type { Captured } from "../../capture/photo";
import { blurredOf } from "./blurred";
import { BlurredPhoto } from "./blurred-photo";
import type { Bay } from "./context";
import { useTaking } from "./taking";
import { button, CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";

const { createObjectURL, revokeObjectURL } = URL;

afterEach(async () => {
  await takeAway();
  blurredOf({ id: CARD }).value = null;
  Object.assign(URL, { createObjectURL, revokeObjectURL });
});

/** A card on which photos are taken: the n-th is blurred as told. */
async function takes(...blurred: boolean[]) {
  Object.assign(URL, { createObjectURL: () => "blob:picture", revokeObjectURL: () => undefined });
  let count = 0;
  const preparePhoto = (): Promise<Captured> => {
    const bytes = new TextEncoder().encode(`photo ${(count += 1)}`).buffer;
    const sha256 = count.toString(16).padStart(64, "0");
    const size = { width: 4, height: 3 };
    return Promise.resolve({
      ok: true,
      bytes,
      mime: "image/jpeg",
      sha256,
      ...size,
      blurred: blurred[count - 1] ?? false,
    });
  };
  const bay: Bay = { ...makeBay(), preparePhoto };
  const card = await walkedCard(bay);
  let take: (picture: Blob) => unknown = () => undefined;
  function Screen() {
    take = useTaking({ card, about: null, round: 1 }).take;
    const photo = blurredOf(card).value;
    return <main>{photo ? <BlurredPhoto key={photo.id} card={card} photo={photo} /> : null}</main>;
  }
  const page = show(bay, <Screen />);
  blurred.forEach(() => take(new Blob(["x"])));
  await until(() => card.state.value?.photos.length === blurred.length);
  return { card, page };
}

test("it is kept, asked about, and the question is gone for good once it was answered", async () => {
  const { card, page } = await takes(true);
  await until(() => page.textContent.includes("This picture looks blurred."));
  button(page, "Keep the picture").click();
  await until(() => page.textContent === "");
  expect(card.state.value?.photos).toHaveLength(1);
});

test("it can be taken again at once", async () => {
  const { page } = await takes(true);
  await until(() => page.textContent.includes("This picture looks blurred."));
  button(page, "Take again").click();
  await until(() => page.querySelector('[aria-label="Photo"]') !== null);
});

test("a photo that was taken back meanwhile is not asked about", async () => {
  const { card, page } = await takes(true);
  await until(() => page.textContent.includes("This picture looks blurred."));
  const [photo] = card.state.value?.photos ?? [];
  if (photo) await card.takeBack(photo, null);
  await until(() => page.textContent === "");
});

test("of a burst only what looks blurred is asked about", async () => {
  const { card, page } = await takes(false, true, false);
  await until(() => page.textContent.includes("This picture looks blurred."));
  expect(blurredOf(card).value?.body.blob.endsWith("2")).toBe(true);
});
