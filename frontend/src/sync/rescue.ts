/** Writes what this phone has not sent, or all that it holds, into one file that a person can carry to the desk. Takes nothing off the phone. */
import type { Entry } from "../journal/types";
import { StoreError } from "../store/errors";
import type { BlobLine, OutboxLine, Store } from "../store/types";
import { heldLines, type HeldLine } from "./held-lines";
import { Zip } from "./zip";

/** docs/formats.md section 4. */
export const RESCUE_FORMAT = 1;
/** So many entries the desk takes in at once. */
const MOST_ENTRIES = 20_000;

export type Saved = {
  file: Blob;
  name: string;
  entries: number;
  blobs: number;
  /** photos and sounds that wait but whose bytes are gone or spoilt here */
  lacking: number;
};
type Shelf = Pick<Store, "waiting" | "cards" | "entriesOf" | "blob" | "me" | "server" | "setting">;
type Line = { entry: Entry; outbox: Pick<OutboxLine, "state" | "kept_at" | "reason"> } | HeldLine;
type BlobPlace = { file: string; sha256: string; bytes: number; mime: string; card: string };

const READ_ME = `Work of a vehicle workshop that a phone could not send to its server.
At the desk choose "Take in a phone's file". entries.jsonl holds one entry a line, blobs/ the photos and sounds,
baycard.json says where it is from. It holds customers' data: delete it once it was taken in.
`;

/** All that waits or was refused, as one file. now: ms since 1970. Raises StoreError when the phone's store fails. */
export async function saveWaiting(store: Shelf, now: number): Promise<Saved> {
  const { entries, blobs } = await store.waiting();
  return write(store, now, await linesOf(store, entries), blobs);
}

/**
 * The same and all else that this phone holds of the workshop's cards: a server that was put back from a backup may lack
 * what a phone had sent that is gone since. What the server has changes nothing.
 */
export async function saveHeld(store: Shelf, now: number): Promise<Saved> {
  const { entries, blobs } = await store.waiting();
  const waits = await linesOf(store, entries);
  const known = new Set(waits.map(({ entry }) => entry.id));
  const held = await heldLines(store, known, MOST_ENTRIES - waits.length);
  return write(store, now, [...waits, ...held].sort(byId), blobs);
}

async function write(store: Shelf, now: number, lines: Line[], blobs: BlobLine[]): Promise<Saved> {
  const zip = new Zip(now);
  zip.add("read-me.txt", utf8(READ_ME));
  const text = utf8(lines.map((line) => `${JSON.stringify(line)}\n`).join(""));
  zip.add("entries.jsonl", text);
  const { held, lacking } = await addBlobs(store, zip, blobs);
  const origin = await originOf(store);
  const told = { file: "entries.jsonl", count: lines.length, bytes: text.length, sha256: await hash(text) };
  const saved_at = new Date(now).toISOString();
  const contents = { is: "baycard-rescue", format: RESCUE_FORMAT, ...origin, saved_at };
  zip.add("baycard.json", utf8(JSON.stringify({ ...contents, entries: told, blobs: held, lacking })));
  const name = `baycard-${wordOf(origin.device)}-${saved_at.slice(0, 16).replace(":", "")}.zip`;
  return { file: zip.finish(), name, entries: lines.length, blobs: held.length, lacking: lacking.length };
}

/** Oldest first. An entry that was confirmed while this ran may still be in it: taking it in twice does no harm. */
async function linesOf(store: Shelf, outbox: OutboxLine[]): Promise<Line[]> {
  const waits = new Map(outbox.map((line) => [line.id, line]));
  const found: Line[] = [];
  for (const card of new Set(outbox.map((line) => line.card))) {
    for (const entry of await store.entriesOf(card)) {
      const line = waits.get(entry.id);
      if (line === undefined) continue;
      const { state, kept_at, reason } = line;
      found.push({ entry, outbox: { state, kept_at, reason } });
    }
  }
  return found.sort(byId);
}

function byId(a: Line, b: Line): number {
  return a.entry.id < b.entry.id ? -1 : 1;
}

/** One at a time: a hundred photos need no more memory than one. */
async function addBlobs(
  store: Shelf,
  zip: Zip,
  lines: BlobLine[],
): Promise<{ held: BlobPlace[]; lacking: string[] }> {
  const held: BlobPlace[] = [];
  const lacking: string[] = [];
  for (const { sha256, card, mime } of lines) {
    const kept = await readable(store, sha256);
    // The desk refuses a file in which anything is spoilt: one bad photo must not hold up all the rest.
    if (kept === null || (await hash(new Uint8Array(kept.bytes))) !== sha256) {
      lacking.push(sha256);
      continue;
    }
    const bytes = new Uint8Array(kept.bytes);
    const file = `blobs/${sha256}.${ENDINGS[mime] ?? "bin"}`;
    zip.add(file, bytes);
    held.push({ file, sha256, bytes: bytes.length, mime, card });
  }
  return { held, lacking };
}

/** Null also for bytes at which the browser fails. */
async function readable(store: Shelf, sha256: string): ReturnType<Shelf["blob"]> {
  try {
    return await store.blob(sha256);
  } catch (error) {
    if (error instanceof StoreError) return null;
    throw error;
  }
}

/** Of a phone on which nobody is signed in only the device and its server are known. */
async function originOf(store: Shelf) {
  const [me, device, server] = await Promise.all([store.me(), store.setting("device"), store.server()]);
  const unnamed = typeof device === "string" ? { id: device, name: "" } : null;
  return {
    server,
    workshop: me === null ? null : { id: me.workshop.id, name: me.workshop.name },
    device: me?.device ?? unnamed,
  };
}

function wordOf(device: { id: string; name: string } | null): string {
  const word = (device?.name ?? "")
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40);
  return word === "" ? "phone" : word;
}

async function hash(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const made = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(made, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function utf8(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}

const ENDINGS: Partial<Record<string, string>> = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/webp": "webp",
  "audio/webm": "webm",
  "audio/ogg": "ogg",
  "audio/mp4": "m4a",
  "audio/wav": "wav",
};
