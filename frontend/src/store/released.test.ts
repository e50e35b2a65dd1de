// @vitest-environment node
// Every released version of the phone's database, as a recording of a phone with unsent work in it, under today's code.
// A new version adds `tests/vectors/phone-store-v<n>.json`: RECORD=1 vitest run src/store/released.test.ts writes it.
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openDB } from "idb";
import { describe, expect, test } from "vitest";
import { arrived, aNote, aPhoto } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { recordingOf, restore, type Recording } from "../../tests/support/recorded";
import { FakeServer } from "../../tests/support/server";
import { aName, aStore } from "../../tests/support/stores";
import type { Entry } from "../journal/types";
import { upgrade, upgrades, type Database } from "./schema";
import type { BlobLine, OutboxLine } from "./types";

const VECTORS = join(import.meta.dirname, "../../../tests/vectors");
const VERSIONS = upgrades.map((_, place) => place + 1);
const CARD = "01a00000-0000-7000-8000-0000000000c1";
const OTHER_CARD = "01a00000-0000-7000-8000-0000000000c2";
const DRAFT = { slot: `${CARD}/wheels/play/front-left/1`, value: { typed: "0,1", repeats: [0.12] } };

function fileOf(version: number): string {
  return join(VECTORS, `phone-store-v${version}.json`);
}

function recorded(version: number): Recording {
  return JSON.parse(readFileSync(fileOf(version), "utf-8")) as Recording;
}

function id(last: number): string {
  return `01a00000-0000-7000-8000-${String(last).padStart(12, "0")}`;
}

function note(last: number, card = CARD, words = "ein Brummen von hinten"): Entry {
  return { ...aNote(card, words), id: id(last), slot: `card/complaint/${id(last)}` };
}

function picture(seed: number) {
  const bytes = Uint8Array.from({ length: 1_500 }, (_, place) => (place * seed) % 251).buffer;
  const sha256 = createHash("sha256").update(new Uint8Array(bytes)).digest("hex");
  return { sha256, mime: "image/jpeg", bytes };
}

function shot(last: number, blob: ReturnType<typeof picture>): Entry {
  return { ...aPhoto(CARD, blob), id: id(last), slot: `photo/${id(last)}` };
}

/** A day at work with today's code: some of it sent, some waiting, some refused, something half typed. */
async function dayAtWork(name: string): Promise<void> {
  const store = aStore(name);
  await store.keepMe({
    person: { id: "ines", name: "Ines Varga", role: "technician" },
    device: { id: "phone-1", name: "Phone" },
    workshop: { id: "tern", name: "Tern Street Garage", units: "metric" },
  });
  await store.keepSetting("device", "phone-1");
  await store.meetServer({ instance: "server-1", epoch: 1 });
  await store.append([note(1), note(2), note(3), note(4, OTHER_CARD)]);
  const [sent, waits, refused] = [picture(3), picture(5), picture(7)];
  for (const [last, blob] of [[5, sent] as const, [6, waits] as const, [7, refused] as const])
    await store.appendWithBlob(shot(last, blob), blob);
  await store.blobSent(sent.sha256);
  await store.blobHeld(waits.sha256, 512);
  const reason = { code: "unknown-author", title: "Its author is not one of us.", do: "Ask the owner." };
  await store.blobRefused(refused.sha256, reason);
  await store.settle([id(1), id(5)], [{ id: id(2), reason }]);
  await store.keepPage(arrived([note(8), note(9, OTHER_CARD)], 3), 4);
  await store.keepDraft(DRAFT.slot, DRAFT.value);
  store.close();
}

async function recordToday(): Promise<Recording> {
  const name = aName();
  await dayAtWork(name);
  const db = await openDB(name);
  const recording = await recordingOf(db);
  db.close();
  return recording;
}

function values<T>(recording: Recording, table: string): T[] {
  return (recording.rows[table] ?? []).map((row) => row.value as T);
}

/** What the recorded phone had not sent, as the recording itself tells. */
function unsentOf(recording: Recording) {
  const lines = values<OutboxLine>(recording, "outbox");
  const inState = (state: string) => lines.filter((line) => line.state === state).map((line) => line.id);
  const made = values<Entry>(recording, "made");
  return {
    waits: made.filter((entry) => inState("waiting").includes(entry.id)),
    refused: inState("refused"),
    settled: made.filter((entry) => !lines.some((line) => line.id === entry.id)),
    blobs: values<BlobLine>(recording, "blob_lines").filter((line) => line.state === "waiting"),
  };
}

if (process.env["RECORD"] !== undefined)
  writeFileSync(fileOf(upgrades.length), `${JSON.stringify(await recordToday(), null, 1)}\n`);

describe.each(VERSIONS)("a phone with the database of version %i", (version) => {
  test("has a recording", () => {
    expect(existsSync(fileOf(version)), `record it: see the top of this file`).toBe(true);
  });

  test("finds everything it had not sent, what was refused with why, and what was half typed", async () => {
    const recording = recorded(version);
    const { waits, refused, blobs } = unsentOf(recording);
    const name = aName();
    await restore(recording, name);
    const store = aStore(name);
    const unsent = await store.waiting();
    expect(unsent.entries.map((line) => line.id)).toEqual(
      values<OutboxLine>(recording, "outbox").map((l) => l.id),
    );
    expect(
      unsent.entries.filter((line) => line.state === "refused").map((line) => line.reason?.code),
    ).toEqual(refused.map(() => "unknown-author"));
    expect(await store.batch(99)).toEqual(waits);
    for (const { sha256, bytes } of blobs) expect((await store.blob(sha256))?.bytes.byteLength).toBe(bytes);
    expect([waits.length, refused.length, blobs.length].every((count) => count > 0)).toBe(true);
    expect(await store.draft(DRAFT.slot)).toEqual(DRAFT.value);
    expect((await store.me())?.person.name).toBe("Ines Varga");
    expect(await store.setting("device")).toBe("phone-1");
  });

  test("sends it, entries and photos, and nothing twice", async () => {
    const recording = recorded(version);
    const { waits, refused, settled, blobs } = unsentOf(recording);
    const server = new FakeServer();
    const pulled = values<{ entries: Entry[] }>(recording, "pulled").flatMap((page) => page.entries);
    for (const entry of [...settled, ...pulled]) server.take(entry);
    const before = server.arrived.size;
    const phone = new Phone(server);
    await restore(recording, phone.name);
    phone.start();
    await phone.settles();
    for (const entry of waits) expect(server.arrived.get(entry.id)).toMatchObject(entry);
    expect(server.arrived.size).toBe(before + waits.length);
    for (const { sha256 } of blobs) {
      const bytes = server.blobs.get(sha256) ?? new Uint8Array();
      expect(createHash("sha256").update(bytes).digest("hex")).toBe(sha256);
    }
    expect((await phone.store.waiting()).entries.map((line) => line.id)).toEqual(refused);
  });

  test("has the tables that the steps up to it make: no step was changed after its release", async () => {
    const db = await openDB(aName(), version, {
      upgrade: (raw) => {
        for (const step of upgrades.slice(0, version)) step(raw as unknown as Database);
      },
    });
    expect((await recordingOf(db)).tables).toEqual(recorded(version).tables);
    db.close();
  });
});

test("the newest recording is what today's code writes: rows do not change their form without a new version", async () => {
  expect(await recordToday()).toEqual(recorded(upgrades.length));
});

test("a phone that skips versions gets the tables of one that never was old", async () => {
  const [fresh, old] = [aName(), aName()];
  const made = await openDB(fresh, upgrades.length, {
    upgrade: (db, from) => upgrade(db as unknown as Database, from),
  });
  await restore(recorded(1), old);
  await aStore(old).cards();
  const grown = await openDB(old);
  expect((await recordingOf(grown)).tables).toEqual((await recordingOf(made)).tables);
});
