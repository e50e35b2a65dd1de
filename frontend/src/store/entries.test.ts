// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { anId, aNote, arrived, notes } from "../../tests/support/entries";
import { aName, aStore } from "../../tests/support/stores";

describe("what is made here", () => {
  test("is found again by another store over the same database", async () => {
    const name = aName();
    const entry = aNote(anId());
    await aStore(name).append([entry]);
    expect(await aStore(name).entriesOf(entry.card)).toEqual([entry]);
  });

  test("is on its way as soon as it is kept", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.append([entry]);
    const line = {
      id: entry.id,
      card: entry.card,
      author: "ines",
      kept_at: 1_000,
      state: "waiting",
      reason: null,
    };
    expect((await store.waiting()).entries).toEqual([line]);
  });

  test("is kept whole or not at all when one of a batch cannot be kept", async () => {
    const store = aStore();
    const card = anId();
    const broken = Object.assign(aNote(card), { body: { words: () => "functions cannot be kept" } });
    await expect(store.append([aNote(card), broken])).rejects.toThrow();
    expect(await store.entriesOf(card)).toEqual([]);
    expect((await store.waiting()).entries).toEqual([]);
  });

  test("is told to the watchers only after it is kept", async () => {
    const store = aStore();
    const entry = aNote(anId());
    const seen = new Promise<number>((resolve) => {
      store.watch((card) => void store.entriesOf(card).then((entries) => resolve(entries.length)));
    });
    await store.append([entry]);
    expect(await seen).toBe(1);
  });

  test("kept twice is there once", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.append([entry]);
    await store.append([entry]);
    expect(await store.entriesOf(entry.card)).toHaveLength(1);
  });
});

describe("what arrives by pull", () => {
  test("is merged by id with what was made here, oldest first", async () => {
    const store = aStore();
    const card = anId();
    const [first, second, third] = [aNote(card), aNote(card), aNote(card)];
    await store.append([second]);
    await store.keepPage(arrived([third, second, first]), 3);
    expect((await store.entriesOf(card)).map((entry) => entry.id)).toEqual([first.id, second.id, third.id]);
  });

  test("comes with its cursor or not at all", async () => {
    const store = aStore();
    const broken = Object.assign(aNote(anId()), { body: { words: () => "functions cannot be kept" } });
    await expect(store.keepPage(arrived([broken]), 7)).rejects.toThrow();
    expect(await store.cursor()).toBe(0);
  });

  test("moves the cursor behind what was kept", async () => {
    const store = aStore();
    await store.keepPage(arrived([aNote(anId())]), 7);
    expect(await store.cursor()).toBe(7);
  });

  test("that was asked for before the server was put back does not carry the cursor past what came since", async () => {
    const store = aStore();
    await store.keepPage(arrived([aNote(anId())]), 500);
    await store.meetServer({ instance: "server-1", epoch: 2 });
    await store.keepPage(arrived([aNote(anId())]), 700, 500);
    expect(await store.cursor()).toBe(0);
    await store.keepPage(arrived([aNote(anId())]), 10, 0);
    expect(await store.cursor()).toBe(10);
  });

  test("keeps members of newer formats untouched", async () => {
    const store = aStore();
    const newer = { ...aNote(anId()), format: 9, weather: "rain" };
    await store.keepPage(arrived([newer]), 1);
    expect(await store.entriesOf(newer.card)).toMatchObject([{ weather: "rain", format: 9 }]);
  });

  test("makes the same set however it is cut into pages and repeated", async () => {
    const entries = arrived(notes(anId(), 12));
    const card = entries[0]?.card ?? "";
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.nat(11), fc.nat(11))), async (cuts) => {
        const store = aStore();
        for (const [from, count] of cuts) await store.keepPage(entries.slice(from, from + count), from);
        await store.keepPage(entries, 12);
        expect(await store.entriesOf(card)).toEqual(entries);
      }),
      { numRuns: 25 },
    );
  });

  test("names each card once", async () => {
    const store = aStore();
    const [one, two] = [anId(), anId()];
    await store.append([aNote(two), aNote(two)]);
    await store.keepPage(arrived([aNote(one), aNote(two)]), 2);
    expect(await store.cards()).toEqual([one, two]);
  });
});

describe("a photo", () => {
  const bytes = new Uint8Array([1, 2, 3]).buffer;

  test("is kept together with the entry that mentions it", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.appendWithBlob(entry, { sha256: "ab", mime: "image/jpeg", bytes });
    expect((await store.blob("ab"))?.bytes.byteLength).toBe(3);
    expect((await store.waiting()).blobs).toMatchObject([
      { sha256: "ab", state: "waiting", bytes: 3, held: 0 },
    ]);
    expect((await store.waiting()).entries).toHaveLength(1);
  });

  test("that was sent before does not go on its way again when another entry mentions it", async () => {
    const store = aStore();
    await store.appendWithBlob(aNote(anId()), { sha256: "ab", mime: "image/jpeg", bytes });
    await store.blobSent("ab");
    await store.appendWithBlob(aNote(anId()), { sha256: "ab", mime: "image/jpeg", bytes });
    expect((await store.waiting()).blobs).toEqual([]);
  });

  test("loses its bytes here only after it was sent and long enough ago", async () => {
    const store = aStore();
    await store.appendWithBlob(aNote(anId()), { sha256: "ab", mime: "image/jpeg", bytes });
    expect(await store.dropSentBlobs(5_000)).toBe(0);
    await store.blobSent("ab");
    expect(await store.dropSentBlobs(500)).toBe(0);
    expect(await store.dropSentBlobs(5_000)).toBe(3);
    expect(await store.blob("ab")).toBeNull();
  });
});

test("other tabs hear of a change, and this tab too", async () => {
  const { openStore } = await import("./open");
  const name = aName();
  const channel = { postMessage: vi.fn(), onmessage: null, close: () => undefined };
  const store = openStore({ now: () => 1, pause: () => Promise.resolve(), channel, name });
  const entry = aNote(anId());
  await store.append([entry]);
  expect(channel.postMessage).toHaveBeenCalledWith({
    cards: [entry.card],
    made: [entry],
    waiting: true,
    kept: null,
  });
});
