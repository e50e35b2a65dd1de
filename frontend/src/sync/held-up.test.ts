// @vitest-environment node
/** One thing that does not get through must hold up nothing else. */
import { afterEach, describe, expect, test } from "vitest";
import { eventually } from "../../tests/support/eventually";
import { anId, aNote, notes } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { FakeServer } from "../../tests/support/server";
import { aStore } from "../../tests/support/stores";
import { aBlob, problem, SILENCE, Talk } from "../../tests/support/talk";
import { makeApi } from "../api/api";
import { StoreError } from "../store/errors";
import type { Queue, SyncStore } from "../store/types";
import { Sender } from "./sender";

const { put, delete: remove } = IDBObjectStore.prototype;

afterEach(() => {
  IDBObjectStore.prototype.put = put;
  IDBObjectStore.prototype.delete = remove;
});

const TOO_SLOW = { is: "unreachable", why: "time" } as const;
const pulled = { of: "pull", more: false } as const;

describe("a photo over which the server fails every time", () => {
  const [bad, good] = [aBlob({ sha256: "bad" }), aBlob({ sha256: "good" })];
  const both: Partial<Queue> = { blobs: 2, blob: bad, later_blobs: [good] };
  const failed = () => {
    const talk = new Talk().start().comesBack({ of: "refresh" }).comesBack(pulled, both);
    expect(talk.step).toMatchObject({ do: "put-piece", blob: bad });
    return talk.fails(problem(500));
  };

  test("lets the next one go first", () => {
    const talk = failed();
    expect([talk.step, talk.until]).toEqual([null, talk.now + 1_000]);
    talk.rings().comesBack(pulled, both);
    expect(talk.step).toMatchObject({ do: "put-piece", blob: good });
    talk.comesBack(
      { of: "held", sha256: "good", bytes: 9, moved: true, complete: true },
      { blobs: 1, blob: bad },
    );
    expect(talk.step).toMatchObject({ blob: bad });
  });

  test("is tried ever more rarely, although everything else goes well", () => {
    const talk = failed();
    const alone = { blobs: 1, blob: bad };
    const delays: number[] = [];
    for (let tries = 0; tries < 8; tries += 1) {
      delays.push((talk.until ?? 0) - talk.now);
      talk.rings().comesBack(pulled, alone);
      if (talk.step?.do === "ask-offset") talk.comesBack({ of: "asked", sha256: "bad" }, alone);
      talk.fails(problem(500));
    }
    expect(delays).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 60_000, 60_000]);
  });
});

test("a photo that the phone's own database cannot read lets the next one go first", () => {
  const both = { blobs: 2, blob: aBlob({ sha256: "bad" }), later_blobs: [aBlob({ sha256: "good" })] };
  const talk = new Talk().start().comesBack({ of: "refresh" }).comesBack(pulled, both);
  talk.comesBack({ of: "store-failed", fault: "lost" }, both).rings().comesBack(pulled, both);
  expect(talk.step).toMatchObject({ do: "put-piece", blob: { sha256: "good" } });
});

describe("a new book that does not come through a weak link", () => {
  test("holds up neither what others wrote nor the photos, and is asked for again", () => {
    const talk = new Talk().start().comesBack({ of: "refresh", late: SILENCE });
    expect(talk.step).toMatchObject({ do: "pull" });
    talk.comesBack(pulled, { blobs: 1, blob: aBlob() });
    expect(talk.step).toMatchObject({ do: "put-piece" });
    talk.comesBack({ of: "held", sha256: "ab", bytes: 9, moved: true, complete: true });
    expect([talk.step, talk.until]).toEqual([null, talk.now + 1_000]);
    expect(talk.rings().step).toEqual({ do: "refresh" });
  });

  test("is asked for again also when it was the first one", () => {
    const talk = new Talk().start().comesBack({ of: "new-server", late: SILENCE }).comesBack(pulled);
    expect(talk.state.problem).toBeNull();
    expect(talk.rings().step).toEqual({ do: "refresh" });
  });
});

describe("a weak link", () => {
  test("is asked for fewer entries after each answer that did not come through, and for more again later", () => {
    const talk = new Talk().start().comesBack({ of: "refresh" });
    const limits: unknown[] = [];
    for (let tries = 0; tries < 6; tries += 1) {
      limits.push(talk.step);
      talk.fails(TOO_SLOW).rings();
    }
    expect(limits).toMatchObject([1_000, 500, 250, 125, 62, 50].map((limit) => ({ do: "pull", limit })));
    expect(talk.comesBack({ of: "pull", more: true }).step).toEqual({ do: "pull", limit: 100 });
  });

  test("is given fewer entries after each batch that did not get through", () => {
    const talk = new Talk().start({ entries: 500 }).fails(TOO_SLOW, 500).rings();
    expect(talk.step).toEqual({ do: "push", limit: 250 });
  });

  test("that is no link at all says nothing about how much goes through it", () => {
    const talk = new Talk().start({ entries: 500 }).fails(SILENCE, 500).rings();
    expect(talk.step).toEqual({ do: "push", limit: 500 });
  });
});

describe("a phone too full for what others wrote", () => {
  test("sends its photos all the same, and looks again once one was sent", () => {
    const photos = { blobs: 1, blob: aBlob() };
    const talk = new Talk().start().comesBack({ of: "refresh" }).comesBack({ of: "no-room" }, photos);
    expect(talk.step).toMatchObject({ do: "put-piece" });
    expect(talk.state.problem).toEqual({ is: "store", fault: "full" });
    talk.comesBack({ of: "held", sha256: "ab", bytes: 9, moved: true, complete: true });
    expect(talk.step).toMatchObject({ do: "pull" });
    expect(talk.comesBack({ of: "no-room" }).step).toBeNull();
  });

  test("has them in the end, without giving up the room that is kept for readings", async () => {
    const server = new FakeServer();
    const phone = new Phone(server).start();
    const card = anId();
    await phone.settles();
    await phone.store.appendWithBlob(aNote(card), {
      sha256: "a".repeat(64),
      mime: "image/jpeg",
      bytes: new ArrayBuffer(2_000),
    });
    const gone: string[] = [];
    IDBObjectStore.prototype.put = function full(...given: Parameters<typeof put>) {
      if (this.name === "pulled" && gone.length === 0)
        throw new DOMException("no room", "QuotaExceededError");
      return put.apply(this, given);
    };
    IDBObjectStore.prototype.delete = function noted(...given: Parameters<typeof remove>) {
      if (this.name !== "outbox") gone.push(`${this.name}/${JSON.stringify(given[0])}`);
      return remove.apply(this, given);
    };
    for (const entry of notes(card, 3)) server.take(entry);
    phone.sender.tell({ is: "woke", why: "focus" });
    await phone.settles();
    expect(await phone.store.entriesOf(card)).toHaveLength(4);
    expect(gone).toEqual([`blobs/"${"a".repeat(64)}"`]);
  });
});

test("lines whose entries are gone do not make the phone ask for them without a pause", () => {
  const talk = new Talk()
    .start({ entries: 1 })
    .comesBack({ of: "push", sent: 0, settled: 0 }, { entries: 1 });
  expect([talk.step, talk.until]).toEqual([null, talk.now + 1_000]);
  expect(talk.state.problem).toEqual({ is: "store", fault: "lost" });
});

test("the entry that is set aside is the one that was sent, whatever was recorded meanwhile", async () => {
  const server = new FakeServer();
  const real = server.wire;
  let meanwhile = () => Promise.resolve();
  const wire: typeof real = async (url, init) => {
    if (url.endsWith("/push")) await meanwhile();
    return real(url, init);
  };
  const phone = new Phone(Object.defineProperty(server, "wire", { value: wire })).start();
  await phone.settles();
  const [older, sent] = [aNote(anId()), aNote(anId())];
  expect(older.id < sent.id).toBe(true);
  meanwhile = async () => {
    meanwhile = () => Promise.resolve();
    server.faults = ["too-large"];
    await phone.store.append([older]);
  };
  await phone.store.append([sent]);
  await phone.settles();
  expect((await phone.store.waiting()).entries).toMatchObject([{ id: sent.id, state: "refused" }]);
  expect(server.arrived.has(older.id)).toBe(true);
});

describe("the phone's own database", () => {
  /** A sender over a store some of whose answers are another, with timers that are rung by hand. */
  function withStore(change: (store: SyncStore) => Partial<SyncStore>) {
    const server = new FakeServer();
    const store = aStore();
    const rings: (() => void)[] = [];
    let listening = 0;
    const sender = new Sender({
      store: { ...store, ...change(store) },
      api: makeApi(server.wire),
      now: () => 1_000,
      dice: () => 0.5,
      timer: (run) => {
        rings.push(run);
        return () => undefined;
      },
      patience: (run) => {
        rings.push(run);
        return () => void rings.splice(rings.indexOf(run), 1);
      },
      link: () => null,
      listen: () => {
        listening += 1;
        return () => undefined;
      },
    });
    sender.tell({ is: "started", signed_in: true, visible: true });
    return { server, store, sender, rings, listeners: () => listening };
  }

  test("that never answers is said to be lost, opened anew, and asked again", async () => {
    let hangs = true;
    const rested: string[] = [];
    const { server, sender, rings } = withStore((store) => ({
      queue: () => (hangs ? new Promise(() => undefined) : store.queue()),
      rest: () => void rested.push("rest"),
      wake: () => void rested.push("wake"),
    }));
    await eventually(() => expect(rings).toHaveLength(1));
    rings.shift()?.();
    await eventually(() => expect(sender.status.peek().problem).toEqual({ is: "store", fault: "lost" }));
    hangs = false;
    rings.shift()?.();
    await eventually(() => expect(server.requests).toContain("GET /api/ping"));
    expect(rested).toEqual(["rest", "wake"]);
  });

  test("that cannot say where the news should begin leaves the live desk for the next pull, not for ever", async () => {
    let tries = 0;
    const { sender, listeners } = withStore((store) => ({
      // Asked once for the pull and once for the news.
      cursor: () => (++tries === 2 ? Promise.reject(new StoreError("lost", null)) : store.cursor()),
    }));
    await eventually(() => expect(sender.status.peek().phase).toBe("idle"));
    sender.tell({ is: "woke", why: "asked" });
    await eventually(() => expect(listeners()).toBe(1));
  });
});
