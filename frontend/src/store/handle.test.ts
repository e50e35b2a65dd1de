// @vitest-environment node
import { openDB } from "idb";
import { describe, expect, test } from "vitest";
import { anId, aNote } from "../../tests/support/entries";
import { aName, aStore } from "../../tests/support/stores";
import { StoreError } from "./errors";
import { Handle } from "./handle";
import { upgrades } from "./schema";

const pause = () => Promise.resolve();
const dead = () => new DOMException("the connection is closing", "InvalidStateError");

describe("a handle", () => {
  test("that died is opened anew and the work done again", async () => {
    const handle = new Handle(pause, aName());
    let tries = 0;
    const done = await handle.use(async (db) => {
      tries += 1;
      if (tries === 1) db.close();
      await db.put("meta", "there", "draft:x");
      return db.get("meta", "draft:x");
    });
    expect([done, tries]).toEqual(["there", 2]);
  });

  test("that dies every time ends in a named fault after a few tries", async () => {
    let tries = 0;
    const work = new Handle(pause, aName()).use(() => {
      tries += 1;
      return Promise.reject(dead());
    });
    await expect(work).rejects.toMatchObject({ name: "StoreError", fault: "lost" });
    expect(tries).toBe(4);
  });

  test("waits longer before each new try", async () => {
    const pauses: number[] = [];
    const handle = new Handle((ms) => Promise.resolve(void pauses.push(ms)), aName());
    await handle.use(() => Promise.reject(dead())).catch(() => undefined);
    expect(pauses).toEqual([50, 200, 800]);
  });

  test("says full when there is no room, without trying again", async () => {
    let tries = 0;
    const work = new Handle(pause, aName()).use(() => {
      tries += 1;
      return Promise.reject(new DOMException("no room", "QuotaExceededError"));
    });
    await expect(work).rejects.toMatchObject({ fault: "full" });
    expect(tries).toBe(1);
  });

  test("lets a bug of ours through as it is", async () => {
    const bug = new TypeError("ours");
    await expect(new Handle(pause, aName()).use(() => Promise.reject(bug))).rejects.toBe(bug);
  });

  test("gives way to a newer version and then says so", async () => {
    const name = aName();
    const store = aStore(name);
    await store.keepSetting("x", 1);
    const newer = await openDB(name, upgrades.length + 1);
    await expect(store.setting("x")).rejects.toThrow(StoreError);
    await expect(store.setting("x")).rejects.toMatchObject({ fault: "newer" });
    newer.close();
  });
});

/** Lets the phone be full for photos until the given moment. */
function fullUntil(hasRoom: () => boolean): () => void {
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function full(...given: Parameters<typeof put>) {
    if (this.name === "blobs" && !hasRoom()) throw new DOMException("no room", "QuotaExceededError");
    return put.apply(this, given);
  };
  return () => void (IDBObjectStore.prototype.put = put);
}

describe("a full phone", () => {
  const photo = (sha256: string) => ({ sha256, mime: "image/jpeg", bytes: new ArrayBuffer(8) });

  test("loses nothing of what was kept before and does not say that the new photo is kept", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.append([entry]);
    const heal = fullUntil(() => false);
    await expect(store.appendWithBlob(aNote(entry.card), photo("ab"))).rejects.toMatchObject({
      fault: "full",
    });
    heal();
    expect(await store.entriesOf(entry.card)).toEqual([entry]);
    expect((await store.waiting()).entries).toHaveLength(1);
  });

  test("makes room by dropping photos that the server holds, and never one that waits", async () => {
    const store = aStore();
    const card = anId();
    await store.appendWithBlob(aNote(card), photo("sent"));
    await store.appendWithBlob(aNote(card), photo("waits"));
    await store.blobSent("sent");
    let room = false;
    const drop = IDBObjectStore.prototype.delete;
    IDBObjectStore.prototype.delete = function freeing(...given: Parameters<typeof drop>) {
      room ||= this.name === "blobs";
      return drop.apply(this, given);
    };
    const heal = fullUntil(() => room);
    await store.appendWithBlob(aNote(card), photo("new"));
    heal();
    IDBObjectStore.prototype.delete = drop;
    const held = await Promise.all(["sent", "waits", "new"].map((name) => store.blob(name)));
    expect(held.map((blob) => blob !== null)).toEqual([false, true, true]);
  });
});

describe("a page that is left", () => {
  test("begins nothing in the store until it comes back, and then does what was asked meanwhile", async () => {
    const handle = new Handle(pause, aName());
    await handle.use((db) => db.put("meta", "before", "draft:x"));
    handle.rest();
    let begun = false;
    const asked = handle.use((db) => {
      begun = true;
      return db.get("meta", "draft:x");
    });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(begun).toBe(false);
    handle.wake();
    expect(await asked).toBe("before");
  });

  test("still ends what it had begun", async () => {
    const name = aName();
    const handle = new Handle(pause, name);
    await handle.use((db) => db.get("meta", "draft:x"));
    const begun = handle.use((db) => db.put("meta", "typed", "draft:x"));
    await Promise.resolve();
    handle.rest();
    await begun;
    expect(await new Handle(pause, name).use((db) => db.get("meta", "draft:x"))).toBe("typed");
  });
});
