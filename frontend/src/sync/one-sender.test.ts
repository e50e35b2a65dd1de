// @vitest-environment node
import { expect, test } from "vitest";
import { eventually } from "../../tests/support/eventually";
import { anId, aNote } from "../../tests/support/entries";
import { FakeServer } from "../../tests/support/server";
import { aName, aStore } from "../../tests/support/stores";
import { makeApi } from "../api/api";
import { StoreError } from "../store/errors";
import { lockOnceLoaded, oneSender, untilKnown, type Lock, type SenderDoor } from "./one-sender";
import { Sender } from "./sender";

/** A lock as the browser's: the next in line gets it when the holder lets go. */
function aLock(): Lock {
  let line: Promise<void> = Promise.resolve();
  return (work) => void (line = line.then(work));
}

function tabs(count: number, server: FakeServer) {
  const lock = aLock();
  const name = aName();
  return Array.from({ length: count }, () => {
    const store = aStore(name);
    const outside = {
      api: makeApi(server.wire),
      now: () => Date.now(),
      dice: () => 0,
      link: () => null,
      listen: () => () => undefined,
    };
    const sender = new Sender({ ...outside, store, timer: () => () => undefined });
    const channel = new BroadcastChannel(name);
    const first = () => Promise.resolve({ is: "started", signed_in: true, visible: true } as const);
    return { store, door: oneSender(() => Promise.resolve(sender), lock, channel, first) };
  });
}

const rests = (door: SenderDoor) =>
  eventually(() =>
    expect(door.status.peek()).toMatchObject({ phase: "idle", last_contact: expect.any(Number) }),
  );

test("of two tabs one sends, and the other shows what it does and passes on what happened", async () => {
  const server = new FakeServer();
  const [first, second] = tabs(2, server);
  if (first === undefined || second === undefined) throw new Error("two tabs are needed");
  await rests(first.door);
  await rests(second.door);
  expect(server.requests.filter((one) => one.includes("/api/ping"))).toHaveLength(1);
  const entry = aNote(anId());
  await second.store.append([entry]);
  second.door.tell({ is: "woke", why: "entry" });
  await eventually(() => expect(server.arrived.has(entry.id)).toBe(true));
  first.door.stop();
  second.door.stop();
});

test("when the sending tab is closed the next one takes over", async () => {
  const server = new FakeServer();
  const [first, second] = tabs(2, server);
  if (first === undefined || second === undefined) throw new Error("two tabs are needed");
  await rests(first.door);
  first.door.stop();
  const entry = aNote(anId());
  await second.store.append([entry]);
  await eventually(() => expect(server.arrived.has(entry.id)).toBe(true));
  second.door.stop();
});

test("what happens while the sender is being opened is heard once it is open", async () => {
  const server = new FakeServer();
  const store = aStore();
  const outside = { api: makeApi(server.wire), now: () => Date.now(), dice: () => 0, link: () => null };
  const sender = new Sender({
    ...outside,
    store,
    timer: () => () => undefined,
    listen: () => () => undefined,
  });
  let opened: (() => void) | null = null;
  const open = () => new Promise<Sender>((resolve) => (opened = () => resolve(sender)));
  const first = () => Promise.resolve({ is: "started", signed_in: false, visible: true } as const);
  const door = oneSender(open, aLock(), null, first);
  await eventually(() => expect(opened).not.toBeNull());
  door.tell({ is: "signed-in" });
  (opened as (() => void) | null)?.();
  await rests(door);
  expect(server.requests).not.toEqual([]);
  door.stop();
});

test("a tab that cannot load its sender leaves the lock to the others", async () => {
  const lock = aLock();
  const held: string[] = [];
  const never = lockOnceLoaded(() => new Promise(() => undefined), lock);
  const at_once = lockOnceLoaded(() => Promise.resolve(), lock);
  never(async () => void held.push("never loaded"));
  at_once(async () => void held.push("loaded"));
  await eventually(() => expect(held).toEqual(["loaded"]));
});

test("a store that does not answer when the app starts is asked again until it does", async () => {
  let tries = 0;
  const ask = () => {
    tries += 1;
    return tries < 3 ? Promise.reject(new StoreError("blocked", null)) : Promise.resolve("Ines");
  };
  expect(await untilKnown(ask, () => Promise.resolve())).toBe("Ines");
});
