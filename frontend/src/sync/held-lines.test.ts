// @vitest-environment node
/** The file of all that a phone holds: what other phones sent comes back to a server that has lost it. */
import { describe, expect, test } from "vitest";
import { anId, aNote, arrived, notes } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";
import { unzipped } from "../../tests/support/unzip";
import type { Entry } from "../journal/types";
import { heldLines } from "./held-lines";
import { saveHeld } from "./rescue";

async function linesIn(file: Blob): Promise<{ entry: Entry; outbox: unknown }[]> {
  const text = new TextDecoder().decode(
    unzipped(new Uint8Array(await file.arrayBuffer())).get("entries.jsonl"),
  );
  return text
    .split("\n")
    .filter(Boolean)
    .map((line) => JSON.parse(line) as { entry: Entry; outbox: unknown });
}

describe("the file of all that a phone holds", () => {
  test("has the entries of others as they were sent, and what waits here with why", async () => {
    const store = aStore();
    const [theirs, sent, waits] = notes(anId(), 3);
    if (!theirs || !sent || !waits) throw new Error("three were made");
    await store.append([sent, waits]);
    await store.settle([sent.id], []);
    await store.keepPage(arrived([theirs, sent]), 2);
    const saved = await saveHeld(store, 1_000);
    expect(saved).toMatchObject({ entries: 3, blobs: 0 });
    expect(await linesIn(saved.file)).toEqual([
      { entry: theirs, outbox: null },
      { entry: sent, outbox: null },
      { entry: waits, outbox: { state: "waiting", kept_at: 1_000, reason: null } },
    ]);
  });

  test("leaves out sign-offs, which only the server makes, and cards of which nothing was fetched here", async () => {
    const store = aStore();
    const [mine, theirs] = [aNote(anId()), aNote(anId())];
    const signed = { ...aNote(theirs.card), slot: "stage", kind: "signed-off" } as unknown as Entry;
    await store.append([mine]);
    await store.settle([mine.id], []);
    await store.keepPage(arrived([theirs, signed]), 2);
    expect((await linesIn((await saveHeld(store, 1_000)).file)).map(({ entry }) => entry.id)).toEqual([
      theirs.id,
    ]);
  });

  test("has the newest cards where there are more than a desk takes in at once", async () => {
    const store = aStore();
    const [older, newer] = [notes(anId(), 3), notes(anId(), 3)];
    await store.keepPage(arrived([...older, ...newer]), 6);
    const ids = async (room: number) =>
      (await heldLines(store, new Set(), room)).map(({ entry }) => entry.id);
    expect(await ids(5)).toEqual(newer.map(({ id }) => id));
    expect((await ids(6)).sort()).toEqual([...older, ...newer].map(({ id }) => id).sort());
  });

  test("takes nothing off the phone", async () => {
    const store = aStore();
    const theirs = aNote(anId());
    await store.keepPage(arrived([theirs]), 1);
    await saveHeld(store, 1_000);
    expect(await store.entriesOf(theirs.card)).toMatchObject([theirs]);
  });
});
