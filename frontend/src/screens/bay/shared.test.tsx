/** Photos shared from another app. */
import { afterEach, expect, it } from "vitest";
import { refuse } from "../../capture/refusals";
import { here } from "../route";
import { Shared } from "./shared";
import type { Shelf } from "./shared-shelf";
import { CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";

afterEach(takeAway);

function makeShelf(names: string[]): Shelf & { left: string[] } {
  const shelf = {
    left: names,
    photos: () => Promise.resolve(names.map((key) => ({ key, file: new Blob([key]) }))),
    remove: (key: string) => {
      shelf.left = shelf.left.filter((one) => one !== key);
      return Promise.resolve();
    },
  };
  return shelf;
}

async function sharing(names: string[]) {
  URL.createObjectURL = () => "blob:x";
  URL.revokeObjectURL = () => undefined;
  window.scrollTo = () => undefined;
  const shelf = makeShelf(names);
  const base = makeBay();
  const preparePhoto = async (file: Blob) => {
    const name = await file.text();
    if (name === "bad") return refuse("cut-off");
    const sha256 = name.charCodeAt(0).toString(16).padStart(64, "0");
    const bytes = new ArrayBuffer(3);
    return { ok: true as const, bytes, mime: "image/jpeg" as const, sha256, width: 4, height: 3 };
  };
  const bay = { ...base, preparePhoto };
  const card = await walkedCard(bay);
  await card.keep("fact", "vehicle/plate", { value: "TSG 482" });
  const page = show(bay, <Shared shelf={shelf} />);
  const row = () => [...page.querySelectorAll("button")].find((one) => one.textContent === "TSG 482");
  await until(() => row() !== undefined);
  return { bay, card, shelf, page, choose: () => row()?.click() };
}

it("are kept on the card that is chosen, and leave the shelf only then", async () => {
  const { card, shelf, choose } = await sharing(["a", "b"]);
  expect(shelf.left).toEqual(["a", "b"]);
  choose();
  await until(() => card.state.value?.photos.length === 2);
  await until(() => here.value.at === "card");
  expect(shelf.left).toEqual([]);
  expect(here.value).toEqual({ at: "card", card: CARD });
});

it("stay on the shelf when one of them cannot be read, which is said", async () => {
  const { card, shelf, page, choose } = await sharing(["a", "bad", "c"]);
  choose();
  await until(() => page.querySelector("[role=alert]") !== null);
  expect(page.querySelector("[role=alert]")?.textContent).toContain("Part of this photo is missing");
  await until(() => card.state.value?.photos.length === 1);
  expect(shelf.left).toEqual(["bad", "c"]);
});
