// @vitest-environment node
// The file for the desk: what is in it, that any reader of zip files can read it, and that nothing leaves the phone.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { anId, aNote, aPhoto, notes } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";
import { unzipped } from "../../tests/support/unzip";
import { saveWaiting } from "./rescue";
import { crc32 } from "./zip";

const NOW = Date.UTC(2026, 10, 25, 16, 20);
const reason = { code: "unknown-author", title: "Its author is not one of us.", do: "Ask the owner." };
const me = {
  person: { id: "ines", name: "Ines Varga", role: "technician" as const },
  device: { id: "phone-1", name: "Ines’ Täschchen" },
  workshop: { id: "tern", name: "Tern Street Garage", units: "metric" as const },
};
const VECTORS = join(import.meta.dirname, "../../../tests/vectors");
const VECTOR = join(VECTORS, "phone-rescue.json");
const ENDINGS = join(VECTORS, "blob-endings.json");

function photo(seed: number, size = 2_000) {
  const bytes = Uint8Array.from({ length: size }, (_, place) => (place * seed) % 251).buffer;
  const sha256 = createHash("sha256").update(new Uint8Array(bytes)).digest("hex");
  return { sha256, mime: "image/jpeg", bytes };
}

/** What the file says of itself, its lines, and its photos by name. */
async function read(file: Blob) {
  const members = unzipped(new Uint8Array(await file.arrayBuffer()));
  const text = (name: string) => new TextDecoder().decode(members.get(name));
  const lines = text("entries.jsonl").split("\n").filter(Boolean);
  return {
    members,
    contents: JSON.parse(text("baycard.json")),
    lines: lines.map((line) => JSON.parse(line)),
  };
}

describe("the file for the desk", () => {
  test("holds every entry that waits or was refused, each with why, and none that was sent", async () => {
    const store = aStore();
    const [sent, waits, refused] = [aNote(anId()), aNote(anId()), aNote(anId())];
    await store.append([sent, waits, refused]);
    await store.settle([sent.id], [{ id: refused.id, reason }]);
    const { lines, contents } = await read((await saveWaiting(store, NOW)).file);
    expect(lines).toEqual([
      { entry: waits, outbox: { state: "waiting", kept_at: 1_000, reason: null } },
      { entry: refused, outbox: { state: "refused", kept_at: 1_000, reason } },
    ]);
    expect(contents).toMatchObject({ is: "baycard-rescue", format: 1, entries: { count: 2 }, blobs: [] });
  });

  test("holds the bytes of every photo that the server lacks, and of no other", async () => {
    const store = aStore();
    const [waits, sent] = [photo(3), photo(5)];
    for (const one of [waits, sent]) await store.appendWithBlob(aPhoto(anId(), one), one);
    await store.blobSent(sent.sha256);
    const { members, contents } = await read((await saveWaiting(store, NOW)).file);
    const file = `blobs/${waits.sha256}.jpg`;
    expect(contents.blobs).toMatchObject([{ file, sha256: waits.sha256, bytes: 2_000, mime: "image/jpeg" }]);
    expect(members.get(file)).toEqual(new Uint8Array(waits.bytes));
    expect([...members.keys()].filter((name) => name.startsWith("blobs/"))).toEqual([file]);
  });

  test("takes nothing off the phone", async () => {
    const store = aStore();
    const one = photo(3);
    await store.appendWithBlob(aPhoto(anId(), one), one);
    const before = await store.waiting();
    await saveWaiting(store, NOW);
    expect(await store.waiting()).toEqual(before);
    expect((await store.blob(one.sha256))?.bytes.byteLength).toBe(2_000);
  });

  test("says where it is from, also when nobody is signed in any more", async () => {
    const store = aStore();
    await store.append([aNote(anId())]);
    await store.keepSetting("device", "phone-1");
    await store.keepMe(me);
    await store.meetServer({ instance: "server-1", epoch: 2 });
    const origin = { server: { instance: "server-1", epoch: 2 }, saved_at: "2026-11-25T16:20:00.000Z" };
    const signedIn = await saveWaiting(store, NOW);
    expect(signedIn.name).toBe("baycard-ines-ta-schchen-2026-11-25T1620.zip");
    const { id, name } = me.workshop;
    expect((await read(signedIn.file)).contents).toMatchObject({
      ...origin,
      workshop: { id, name },
      device: me.device,
    });
    await store.forgetMe();
    const signedOut = await read((await saveWaiting(store, NOW)).file);
    const device = { id: "phone-1", name: "" };
    expect(signedOut.contents).toMatchObject({ ...origin, workshop: null, device });
    expect(signedOut.lines).toHaveLength(1);
  });

  test("leaves out a photo whose bytes are spoilt here, and says so: it would spoil the whole file", async () => {
    const store = aStore();
    const [good, bad] = [photo(3), { ...photo(5), bytes: photo(7).bytes }];
    for (const one of [good, bad]) await store.appendWithBlob(aPhoto(anId(), one), one);
    const saved = await saveWaiting(store, NOW);
    expect([saved.entries, saved.blobs, saved.lacking]).toEqual([2, 1, 1]);
    expect((await read(saved.file)).contents.lacking).toEqual([bad.sha256]);
  });

  test.each(["NotReadableError", "UnknownError"])(
    "leaves out a photo at which the browser fails with %s",
    async (name) => {
      const store = aStore();
      for (const one of [photo(3), photo(5)]) await store.appendWithBlob(aPhoto(anId(), one), one);
      const { get } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.get = function failing(key: IDBValidKey) {
        if (this.name === "blobs" && key === photo(3).sha256) throw new DOMException("bytes are gone", name);
        return get.call(this, key);
      };
      const saved = await saveWaiting(store, NOW).finally(() => void (IDBObjectStore.prototype.get = get));
      expect([saved.entries, saved.blobs, saved.lacking]).toEqual([2, 1, 1]);
    },
  );

  test("of five hundred entries and a hundred photos never holds two photos at once", async () => {
    const store = aStore();
    const card = anId();
    await store.append(notes(card, 500));
    for (let seed = 1; seed <= 100; seed += 1) {
      const one = photo(seed, 1_000 + seed);
      await store.appendWithBlob(aPhoto(card, one), one);
    }
    let [open, most] = [0, 0];
    const counting = {
      ...store,
      blob: async (sha256: string) => {
        open += 1;
        most = Math.max(most, open);
        const found = await store.blob(sha256);
        open -= 1;
        return found;
      },
    };
    const saved = await saveWaiting(counting, NOW);
    expect([saved.entries, saved.blobs, most]).toEqual([600, 100, 1]);
    expect((await read(saved.file)).members.size).toBe(103);
  });

  test("ends the names of photos and sounds as the server does", async () => {
    const store = aStore();
    const { endings }: { endings: Record<string, string> } = JSON.parse(readFileSync(ENDINGS, "utf-8"));
    const kept = Object.keys(endings).map((mime, seed) => ({ ...photo(seed + 3), mime }));
    for (const one of kept) await store.appendWithBlob(aPhoto(anId(), one), one);
    const { contents } = await read((await saveWaiting(store, NOW)).file);
    const names: string[] = contents.blobs.map((one: { file: string }) => one.file);
    expect(names.sort()).toEqual(kept.map((one) => `blobs/${one.sha256}.${endings[one.mime]}`).sort());
  });

  test("is, byte for byte, the one that the server's tests read", async () => {
    const store = aStore();
    const one = photo(3, 300);
    const card = "01a00000-0000-7000-8000-0000000000aa";
    const note = {
      ...aNote(card, "ein Brummen, hinten – “laut”"),
      id: "01a00000-0000-7000-8000-000000000001",
    };
    const shot = { ...aPhoto(card, one), id: "01a00000-0000-7000-8000-000000000002" };
    const entries = [
      { ...note, slot: `card/complaint/${note.id}` },
      { ...shot, slot: `photo/${shot.id}` },
    ] as const;
    await store.append([entries[0]]);
    await store.appendWithBlob(entries[1], one);
    await store.keepMe(me);
    await store.meetServer({ instance: "server-1", epoch: 1 });
    const bytes = Buffer.from(await (await saveWaiting(store, NOW)).file.arrayBuffer());
    const blob = { sha256: one.sha256, base64: Buffer.from(one.bytes).toString("base64") };
    const vector = { file: bytes.toString("base64"), entries, blobs: [blob] };
    if (process.env["RECORD"] !== undefined) writeFileSync(VECTOR, `${JSON.stringify(vector, null, 2)}\n`);
    expect(vector).toEqual(JSON.parse(readFileSync(VECTOR, "utf-8")));
  });
});

test("the checksum is the one zip readers compute", () => {
  expect(crc32(new TextEncoder().encode("123456789"))).toBe(0xcbf43926);
});
