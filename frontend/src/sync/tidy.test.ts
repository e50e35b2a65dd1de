// @vitest-environment node
import { describe, expect, test } from "vitest";
import { anId, aNote, aPhoto } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { FakeServer } from "../../tests/support/server";
import { digest } from "../journal/digest";
import type { Entry, EntryOf } from "../journal/types";

const DAY_MS = 86_400_000;
const photo = (name: string) => ({
  sha256: name.padEnd(64, "0"),
  mime: "image/jpeg",
  bytes: new ArrayBuffer(2_000),
});

/** The server's signature over these entries of a card. */
function signOff(card: string, entries: readonly Entry[]): EntryOf<"signed-off"> {
  const seen = { count: entries.length, digest: digest(entries.map((entry) => entry.id)) };
  const words = { restrictions: "", look_again: "", words: "" };
  const body = { revision: 1, arrival: 9, sha256: "", drive: "yes", ...seen, ...words } as const;
  return { ...aNote(card), slot: "stage", kind: "signed-off", body };
}

/** A phone whose photo the server holds; the card is signed off if wanted. */
async function withSentPhoto({ signed }: { signed: boolean }) {
  const server = new FakeServer();
  const phone = new Phone(server).start();
  const card = anId();
  const kept = photo("first");
  const entry = aPhoto(card, kept);
  await phone.store.appendWithBlob(entry, kept);
  await phone.settles();
  if (signed) server.take(signOff(card, [entry]));
  const holds = async () => (await phone.store.blob(kept.sha256)) !== null;
  const passes = async (days: number) => {
    phone.now += days * DAY_MS;
    server.requests = [];
    phone.sender.tell({ is: "woke", why: "focus" });
    await phone.settles();
  };
  return { server, phone, card, kept, holds, passes };
}

describe("a photo the server holds", () => {
  test("is let go a week after, once its card is signed off, and its line and entry stay", async () => {
    const { phone, card, holds, passes } = await withSentPhoto({ signed: true });
    await passes(2);
    expect(await holds()).toBe(true);
    await passes(6);
    expect(await holds()).toBe(false);
    expect(await phone.store.entriesOf(card)).toHaveLength(2);
    expect((await phone.store.waiting()).blobs).toEqual([]);
  });

  test("stays while its card is not signed off", async () => {
    const { holds, passes } = await withSentPhoto({ signed: false });
    await passes(8);
    expect(await holds()).toBe(true);
  });

  test("stays when something was recorded after the signature", async () => {
    const { phone, card, holds, passes } = await withSentPhoto({ signed: true });
    await phone.store.append([aNote(card)]);
    await passes(8);
    expect(await holds()).toBe(true);
  });

  test("stays when the server no longer says that it holds it, and is sent anew", async () => {
    const { server, phone, kept, holds, passes } = await withSentPhoto({ signed: true });
    await passes(1);
    server.whole.clear();
    server.blobs.clear();
    await passes(8);
    expect(await holds()).toBe(true);
    await phone.store.meetServer({ instance: "server-1", epoch: 1 });
    await passes(1);
    expect(server.whole.has(kept.sha256)).toBe(true);
  });

  test("that was sent late stays for a week from then on", async () => {
    const { server, phone, card, passes } = await withSentPhoto({ signed: false });
    const late = photo("late");
    const entry = aPhoto(card, late);
    server.befalls = (request) => (request.startsWith("PUT") ? "cut-before" : null);
    await phone.store.appendWithBlob(entry, late);
    await phone.shows("waiting");
    const entries = await phone.store.entriesOf(card);
    server.take(signOff(card, entries));
    await passes(8);
    expect(await phone.store.blob(late.sha256)).not.toBeNull();
    await passes(8);
    expect(await phone.store.blob(late.sha256)).toBeNull();
  });

  test("stays when the server is put back just then, and is offered to it again", async () => {
    const { server, kept, holds, passes } = await withSentPhoto({ signed: true });
    await passes(1);
    server.restore(() => true);
    await passes(8);
    expect(await holds()).toBe(true);
    expect(server.whole.has(kept.sha256)).toBe(true);
  });

  test("stays while nobody answers, and nobody is told of a failure over it", async () => {
    const { server, phone, holds, passes } = await withSentPhoto({ signed: true });
    await passes(1);
    server.befalls = (request) => (request.includes("/digest/") ? "cut-before" : null);
    await passes(8);
    expect(await holds()).toBe(true);
    expect(phone.sender.status.peek().problem).toBeNull();
    await passes(1.1);
    expect(await holds()).toBe(false);
  });
});

test("several cards are looked at one after another, and then no more that day", async () => {
  const server = new FakeServer();
  const phone = new Phone(server).start();
  const cards = [anId(), anId(), anId()];
  for (const [number, card] of cards.entries()) {
    const kept = photo(`of-${number}`);
    const entry = aPhoto(card, kept);
    await phone.store.appendWithBlob(entry, kept);
    server.take(signOff(card, [entry]));
  }
  await phone.settles();
  phone.now += 8 * DAY_MS;
  server.requests = [];
  phone.sender.tell({ is: "woke", why: "focus" });
  await phone.settles();
  phone.sender.tell({ is: "woke", why: "focus" });
  await phone.settles();
  expect(server.requests.filter((one) => one.includes("/digest/"))).toHaveLength(3);
  expect(await phone.store.sentBlobs(Infinity)).toEqual([]);
});
