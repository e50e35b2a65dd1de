// @vitest-environment node
/** A phone that another workshop uses now: photos of the first one's cards wait until somebody of it signs in. */
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { anId, aPhoto } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { FakeServer } from "../../tests/support/server";
import { saveWaiting } from "./rescue";

function photo(fill: number) {
  const bytes = new Uint8Array(2_000).fill(fill);
  return {
    sha256: createHash("sha256").update(bytes).digest("hex"),
    mime: "image/jpeg",
    bytes: bytes.buffer,
  };
}

/** Photos of two cards that wait, the entries being sent. */
async function phoneWithPhotos(theirs: string, ours: string) {
  const server = new FakeServer();
  const phone = new Phone(server).start();
  await phone.settles();
  await phone.store.keepSetting("photos", "asked");
  for (const [card, fill] of [[theirs, 1] as const, [theirs, 2] as const, [ours, 3] as const])
    await phone.store.appendWithBlob(aPhoto(card, photo(fill)), photo(fill));
  return { server, phone };
}

test("photos of another workshop's card are not sent, wait with their reason, and hold up no others", async () => {
  const [theirs, ours] = [anId(), anId()];
  const { server, phone } = await phoneWithPhotos(theirs, ours);
  server.elsewhere.add(theirs);
  phone.sender.tell({ is: "photos-let" });
  await phone.settles();
  expect([...server.blobs.keys()]).toEqual([photo(3).sha256]);
  const { blobs } = await phone.store.waiting();
  expect(blobs.map((line) => line.sha256).sort()).toEqual([photo(1).sha256, photo(2).sha256].sort());
  for (const line of blobs)
    expect(line).toMatchObject({ state: "refused", held: 0, reason: { code: "other-workshop" } });
  expect(phone.sender.status.peek()).toMatchObject({ blobs: 0, refused: 2 });
});

test("of a card's photos only one is offered before the rest is held back, too", async () => {
  const theirs = anId();
  const { server, phone } = await phoneWithPhotos(theirs, anId());
  server.elsewhere.add(theirs);
  phone.sender.tell({ is: "photos-let" });
  await phone.settles();
  expect(server.requests.filter((one) => one.startsWith("PUT"))).toHaveLength(2);
});

test("they are in the file for the desk, and go once somebody of their workshop has signed in", async () => {
  const theirs = anId();
  const { server, phone } = await phoneWithPhotos(theirs, anId());
  server.elsewhere.add(theirs);
  phone.sender.tell({ is: "photos-let" });
  await phone.settles();
  expect(await saveWaiting(phone.store, 1_000)).toMatchObject({ entries: 0, blobs: 2, lacking: 0 });
  server.elsewhere.clear();
  await phone.store.offerRefused();
  phone.sender.tell({ is: "signed-in" });
  phone.sender.tell({ is: "photos-let" });
  await phone.settles();
  expect(server.whole.size).toBe(3);
});
