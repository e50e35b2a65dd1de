// @vitest-environment node
import { describe, expect, test } from "vitest";
import { anId, aNote, arrived, notes } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";

const reason = { code: "unknown-author", title: "Its author is not one of us.", do: "Ask the owner." };

describe("the outbox", () => {
  test("gives the oldest first and no more than asked for", async () => {
    const store = aStore();
    const entries = notes(anId(), 5);
    await store.append([...entries].reverse());
    expect((await store.batch(3)).map((entry) => entry.id)).toEqual(
      entries.slice(0, 3).map((entry) => entry.id),
    );
  });

  test("lets go of a line only when its id was named", async () => {
    const store = aStore();
    const [first, second] = [aNote(anId()), aNote(anId())];
    await store.append([first, second]);
    await store.settle([first.id], []);
    expect((await store.batch(9)).map((entry) => entry.id)).toEqual([second.id]);
  });

  test("keeps a refused line with its reason and out of the way of the others", async () => {
    const store = aStore();
    const [bad, good] = [aNote(anId()), aNote(anId())];
    await store.append([bad, good]);
    await store.settle([], [{ id: bad.id, reason }]);
    expect((await store.batch(9)).map((entry) => entry.id)).toEqual([good.id]);
    expect((await store.waiting()).entries[0]).toMatchObject({ id: bad.id, state: "refused", reason });
    expect(await store.queue()).toMatchObject({ entries: 1, refused: 1 });
  });

  test("lets refused lines go once more when a person asks for it", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.append([entry]);
    await store.settle([], [{ id: entry.id, reason }]);
    await store.offerRefused();
    expect(await store.batch(9)).toEqual([entry]);
  });

  test("survives a name it never sent", async () => {
    const store = aStore();
    await store.settle(["never-made"], [{ id: "nor-this", reason }]);
    expect(await store.queue()).toMatchObject({ entries: 0, refused: 0 });
  });

  test("asks for a comparison of each card from which something was sent", async () => {
    const store = aStore();
    const entry = aNote(anId());
    await store.append([entry]);
    await store.settle([entry.id], []);
    expect((await store.queue()).compare).toEqual([entry.card]);
    await store.compared(entry.card);
    expect((await store.queue()).compare).toEqual([]);
  });
});

describe("another server", () => {
  test("means pulling from the start and comparing every card made here", async () => {
    const store = aStore();
    const mine = aNote(anId());
    await store.append([mine]);
    await store.keepPage(arrived([aNote(anId())]), 40);
    await store.meetServer({ instance: "a", epoch: 2 });
    expect(await store.cursor()).toBe(0);
    expect(await store.server()).toEqual({ instance: "a", epoch: 2 });
    expect((await store.queue()).compare).toEqual([mine.card]);
  });

  test("is offered again what the old one had confirmed, but not what it refused", async () => {
    const store = aStore();
    const card = anId();
    const [sent, refused] = [aNote(card), aNote(card)];
    await store.append([sent, refused]);
    await store.settle([sent.id], [{ id: refused.id, reason }]);
    expect(await store.settledIds(card)).toEqual([sent.id]);
    await store.offerAgain(card);
    expect((await store.batch(9)).map((entry) => entry.id)).toEqual([sent.id]);
  });

  test("gets the photos it lacks, as far as their bytes are still here", async () => {
    const store = aStore();
    const blob = { sha256: "ab", mime: "image/jpeg", bytes: new ArrayBuffer(4) };
    await store.appendWithBlob(aNote(anId()), blob);
    await store.blobSent("ab");
    await store.offerBlobsAgain(["ab", "of-another-phone"]);
    expect((await store.queue()).blob).toMatchObject({ sha256: "ab", held: 0 });
  });
});

test("a checklist version that is not here is asked for, one that is here is not", async () => {
  const store = aStore();
  const chosen = (id: string) => ({
    ...aNote(anId()),
    slot: `card/checklist/${id}`,
    kind: "checklist-chosen" as const,
    body: { version: 2, sha256: "" },
  });
  await store.keepChecklist({
    id: "brakes",
    version: 2,
    sha256: "",
    title: "",
    why: "",
    not_instead_of: "",
    cautions: [],
    tools: [],
    stations: [],
    checks: [],
  });
  await store.keepPage(arrived([chosen("brakes"), chosen("tyres"), chosen("tyres")]), 3);
  expect((await store.queue()).wanted).toEqual([{ id: "tyres", version: 2 }]);
  await store.checklistSought({ id: "tyres", version: 2 });
  expect((await store.queue()).wanted).toEqual([]);
});

test("an entry that comes back by pull needs not be sent any more, even if an answer called it refused", async () => {
  const store = aStore();
  const [waits, refused, conflict] = [aNote(anId()), aNote(anId()), aNote(anId())];
  await store.append([waits, refused, conflict]);
  const other = { ...reason, code: "id-conflict" };
  await store.settle(
    [],
    [
      { id: refused.id, reason },
      { id: conflict.id, reason: other },
    ],
  );
  await store.keepPage(arrived([waits, refused, conflict]), 3);
  expect((await store.waiting()).entries.map((line) => line.id)).toEqual([conflict.id]);
});
