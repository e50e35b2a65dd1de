// @vitest-environment node
import { expect, test } from "vitest";
import { anId, aNote } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";
import { askForRoom } from "./persist";
import type { Kept } from "./types";

const me = {
  person: { id: "p1", name: "Ines Varga", role: "technician" as const },
  device: { id: "d1", name: "phone" },
  workshop: { id: "w1", name: "Tern Street Garage", units: "metric" as const },
};

test("signing out forgets who is there and nothing that waits", async () => {
  const store = aStore();
  await store.keepMe(me);
  await store.append([aNote(anId())]);
  await store.forgetMe();
  expect(await store.me()).toBeNull();
  expect((await store.waiting()).entries).toHaveLength(1);
});

test("watchers hear who signed in", async () => {
  const store = aStore();
  const heard: Kept[] = [];
  store.watchKept((what) => heard.push(what));
  await store.keepMe(me);
  expect(heard).toEqual(["me"]);
});

test("a draft is there until it is dropped", async () => {
  const store = aStore();
  await store.keepDraft("card/slot", { typed: "0,1" });
  expect(await store.draft("card/slot")).toEqual({ typed: "0,1" });
  await store.keepDraft("card/slot", null);
  expect(await store.draft("card/slot")).toBeUndefined();
});

test("drafts are listed by what their slots begin with", async () => {
  const store = aStore();
  await store.keepDraft("card/a", "one");
  await store.keepDraft("card/b", ["two"]);
  await store.keepDraft("card2/a", "of another card");
  expect(await store.drafts("card/")).toEqual({ "card/a": "one", "card/b": ["two"] });
});

test("a promise of the browser that already holds is not asked for again", async () => {
  let asked = 0;
  const persist = () => Promise.resolve(++asked > 0);
  const granted = { persisted: () => Promise.resolve(true), persist };
  expect(await askForRoom(granted)).toMatchObject({ persisted: true });
  expect(asked).toBe(0);
  const room = await askForRoom({ persist, estimate: () => Promise.resolve({ usage: 3, quota: 10 }) });
  expect(room).toEqual({ persisted: true, used_bytes: 3, free_bytes: 7 });
});
