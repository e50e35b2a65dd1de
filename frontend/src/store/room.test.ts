// @vitest-environment node
import { afterEach, describe, expect, test } from "vitest";
import { anId, aNote } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";
import { RESERVE_BYTES } from "./reserve";

const { put, delete: remove } = IDBObjectStore.prototype;

afterEach(() => {
  IDBObjectStore.prototype.put = put;
  IDBObjectStore.prototype.delete = remove;
});

/** A phone with room for so many bytes: photos and the reserve count as they are, every other row as 1 kB. */
function roomFor(bytes: number): { bytes: number } {
  const limit = { bytes };
  const kept = new Map<string, number>();
  IDBObjectStore.prototype.put = function counted(value: unknown, key?: IDBValidKey) {
    const name = nameOf(this, value, key);
    const others = [...kept].reduce((sum, [one, size]) => (one === name ? sum : sum + size), 0);
    if (others + sizeOf(value) > limit.bytes) throw new DOMException("no room", "QuotaExceededError");
    kept.set(name, sizeOf(value));
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  };
  IDBObjectStore.prototype.delete = function freed(key: IDBValidKey) {
    kept.delete(`${this.name}/${JSON.stringify(key)}`);
    return remove.call(this, key);
  };
  return limit;
}

function nameOf(table: IDBObjectStore, value: unknown, key?: IDBValidKey): string {
  const path = typeof table.keyPath === "string" ? table.keyPath : "";
  const own = (value as Record<string, unknown>)[path];
  return `${table.name}/${JSON.stringify(key ?? own)}`;
}

function sizeOf(value: unknown): number {
  if (value instanceof ArrayBuffer) return value.byteLength;
  const { bytes } = value as { bytes?: unknown };
  return bytes instanceof ArrayBuffer ? bytes.byteLength : 1_000;
}

const photo = (sha256: string) => ({ sha256, mime: "image/jpeg", bytes: new ArrayBuffer(300_000) });

/** A store that took photos until there was no room for another, and how many it took. */
async function fullOfPhotos(limit_bytes: number) {
  const limit = roomFor(limit_bytes);
  const [store, card] = [aStore(), anId()];
  let photos = 0;
  const isKept = () =>
    store.appendWithBlob(aNote(card), photo(`photo-${photos}`)).then(
      () => true,
      () => false,
    );
  while (await isKept()) photos += 1;
  return { store, card, photos, limit };
}

describe("on a phone full of photos that wait", () => {
  test("a walk of readings still goes in", async () => {
    const { store, card, photos } = await fullOfPhotos(2_000_000);
    expect(photos).toBe(4);
    const readings = Array.from({ length: 200 }, () => aNote(card));
    for (const reading of readings) await store.append([reading]);
    expect(await store.entriesOf(card)).toHaveLength(4 + 200);
    expect((await store.waiting()).blobs).toHaveLength(4);
  });

  test("no photo takes the room that the readings have given up", async () => {
    const { store, card, limit } = await fullOfPhotos(2_000_000);
    limit.bytes -= 300_000;
    await store.append([aNote(card)]);
    await expect(store.appendWithBlob(aNote(card), photo("another"))).rejects.toMatchObject({
      fault: "full",
    });
    await store.append([aNote(card)]);
  });

  test("the reserve is set aside anew with the first photo that fits again", async () => {
    const { store, card, limit } = await fullOfPhotos(2_000_000);
    limit.bytes -= 300_000;
    await store.append([aNote(card)]);
    limit.bytes = 2_000_000 + 2 * RESERVE_BYTES;
    await store.appendWithBlob(aNote(card), photo("fits"));
    limit.bytes -= RESERVE_BYTES + 300_000;
    await store.append(Array.from({ length: 30 }, () => aNote(card)));
  });

  test("what the server confirms can still be noted, so that its bytes may go", async () => {
    const { store, card, limit } = await fullOfPhotos(2_000_000);
    limit.bytes -= 300_000;
    for (const { id } of (await store.waiting()).entries) await store.settle([id], []);
    for (const name of ["photo-0", "photo-1"]) await store.blobSent(name);
    await store.appendWithBlob(aNote(card), photo("next"));
    const names = ["photo-0", "photo-1", "photo-2", "next"];
    const here = await Promise.all(names.map((name) => store.blob(name)));
    expect(here.map((blob) => blob !== null)).toEqual([false, false, true, true]);
  });

  test("when even the reserve is used up a reading is refused and nothing kept is lost", async () => {
    const { store, card, limit } = await fullOfPhotos(2_000_000);
    const before = await store.entriesOf(card);
    limit.bytes = 0;
    await expect(store.append([aNote(card)])).rejects.toMatchObject({ fault: "full" });
    expect(await store.entriesOf(card)).toEqual(before);
  });
});

test("the bytes set aside are not ones that a browser could pack small", async () => {
  const store = aStore();
  let reserve: unknown = null;
  IDBObjectStore.prototype.put = function seen(...given: Parameters<typeof put>) {
    if (this.name === "meta" && given[1] === "reserve") reserve = given[0];
    return put.apply(this, given);
  };
  await store.appendWithBlob(aNote(anId()), photo("first"));
  const { gzipSync } = await import("node:zlib");
  expect(gzipSync(new Uint8Array(reserve as ArrayBuffer)).length).toBeGreaterThan(0.99 * RESERVE_BYTES);
});
