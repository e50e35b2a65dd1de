/** Entries for tests: sound ones, with ids that sort in the order they are made. */
import type { Entry, EntryOf } from "../../src/journal/types";
import { uuid7 } from "../../src/journal/uuid7";
import type { PulledEntry } from "../../src/store/types";

let made = 0;

export function anId(): string {
  made += 1;
  return uuid7(1_790_000_000_000 + made, new Uint8Array(10));
}

export function aNote(card: string, words = "a hum from the rear"): EntryOf<"complaint"> {
  const id = anId();
  return {
    id,
    card,
    slot: `card/complaint/${id}`,
    kind: "complaint",
    body: { words },
    replaces: [],
    author: "ines",
    device: "phone-1",
    made_at: "2026-11-20T09:14:03.120Z",
    format: 1,
  };
}

export function aPhoto(card: string, blob: { sha256: string; bytes: ArrayBuffer }): EntryOf<"photo"> {
  const { id, ...rest } = aNote(card);
  const about = { about: null, round: 1, caption: "", width: 1600, height: 1200, mime: "image/jpeg" };
  return {
    ...rest,
    id,
    slot: `photo/${id}`,
    kind: "photo",
    body: { blob: blob.sha256, bytes: blob.bytes.byteLength, ...about },
  };
}

export function notes(card: string, count: number): Entry[] {
  return Array.from({ length: count }, () => aNote(card));
}

export function arrived(entries: Entry[], first = 1): PulledEntry[] {
  return entries.map((entry, place) => ({ ...entry, arrival: first + place }));
}
