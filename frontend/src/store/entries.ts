/** Entries: made here as rows, pulled as pages, read as one set. */
import type { Entry } from "../journal/types";
import type { News } from "./news";
import type { Database } from "./schema";
import type { BlobLine, OutboxLine } from "./types";
import type { Handle } from "./handle";
import { change, write } from "./transact";

export type Context = { handle: Handle; news: News; now: () => number };
type Made = {
  objectStore(name: "made"): { put(entry: Entry): Promise<unknown> };
  objectStore(name: "outbox"): { put(line: OutboxLine): Promise<unknown> };
};
export type NewBlob = { sha256: string; mime: string; bytes: ArrayBuffer };

/** Entries and their outbox lines together: what is kept is also on its way. */
export async function append({ handle, news, now }: Context, entries: Entry[]): Promise<void> {
  if (entries.length === 0) return;
  await handle.use((db) =>
    change(db, ["made", "outbox"], "strict", async (tx) => {
      writeMade(tx, entries, now());
    }),
  );
  news.tell({ cards: [...new Set(entries.map((entry) => entry.card))], made: entries, waiting: true });
}

/**
 * An entry and the photo or sound it mentions, and others of its card, in one transaction; the bytes are read back
 * before it says kept.
 */
export async function appendWithBlob(
  context: Context,
  entry: Entry,
  blob: NewBlob,
  others: readonly Entry[] = [],
): Promise<void> {
  const { handle, news, now } = context;
  const made = [entry, ...others];
  await handle.use(async (db) => {
    await change(db, ["made", "outbox", "blobs", "blob_lines"], "strict", async (tx) => {
      writeMade(tx, made, now());
      write(tx.objectStore("blobs").put(blob));
      const lines = tx.objectStore("blob_lines");
      const known = await lines.get(blob.sha256);
      if (known?.state !== "sent") write(lines.put(blobLineOf(entry.card, blob, now())));
    });
    await readBack(db, blob);
  });
  news.tell({ cards: [entry.card], made, waiting: true });
}

/** Every entry of the card, each id once, oldest id first. */
export function entriesOf({ handle }: Context, card: string): Promise<Entry[]> {
  return handle.use(async (db) => {
    const tx = db.transaction(["made", "pulled"]);
    const [made, pages] = await Promise.all([
      tx.objectStore("made").index("card").getAll(card),
      tx.objectStore("pulled").getAll(pagesOf(card)),
    ]);
    return mergeById([...pages.flatMap((page): Entry[] => page.entries), ...made]);
  });
}

/** A photo or sound; null when its bytes are gone, or lie there and cannot be read any more. */
export async function blobOf({ handle }: Context, sha256: string): Promise<NewBlob | null> {
  try {
    return (await handle.use((db) => db.get("blobs", sha256))) ?? null;
  } catch (error) {
    if (error instanceof DOMException && error.name === "NotReadableError") return null;
    throw error;
  }
}

/** The entry made here that mentions this photo or sound. */
export function entryOfBlob({ handle }: Context, { card, sha256 }: BlobLine): Promise<Entry | null> {
  return handle.use(async (db) => {
    const made = await db.getAllFromIndex("made", "card", card);
    return made.find(({ body }) => "blob" in body && body.blob === sha256) ?? null;
  });
}

/** The ids of all cards this phone knows, oldest first. */
export function cards({ handle }: Context): Promise<string[]> {
  return handle.use(async (db) => {
    const tx = db.transaction(["made", "pulled"]);
    const found = new Set<string>();
    for (const [card] of await tx.objectStore("pulled").getAllKeys()) found.add(card);
    let cursor = await tx.objectStore("made").index("card").openKeyCursor(null, "nextunique");
    while (cursor !== null) {
      found.add(cursor.key);
      cursor = await cursor.continue();
    }
    return [...found].sort();
  });
}

/** The key range of one card's pulled pages. */
export function pagesOf(card: string): IDBKeyRange {
  return IDBKeyRange.bound([card, 0], [card, Infinity]);
}

/** Entries with their outbox lines: what is kept is also on its way. */
function writeMade(tx: Made, entries: readonly Entry[], now: number): void {
  for (const entry of entries) {
    write(tx.objectStore("made").put(entry));
    write(tx.objectStore("outbox").put(lineOf(entry, now)));
  }
}

export function lineOf(entry: Entry, now: number): OutboxLine {
  return {
    id: entry.id,
    card: entry.card,
    author: entry.author,
    kept_at: now,
    state: "waiting",
    reason: null,
  };
}

function blobLineOf(card: string, { sha256, mime, bytes }: NewBlob, now: number): BlobLine {
  return {
    sha256,
    card,
    mime,
    bytes: bytes.byteLength,
    kept_at: now,
    state: "waiting",
    held: 0,
    reason: null,
  };
}

function mergeById(entries: Entry[]): Entry[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  return [...byId.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

async function readBack(db: Database, blob: NewBlob): Promise<void> {
  const kept = await db.get("blobs", blob.sha256);
  if (kept?.bytes.byteLength !== blob.bytes.byteLength) {
    // Named like the browser's own failure, so that the handle is opened anew and the write repeated.
    throw new DOMException("the bytes read back are not those written", "UnknownError");
  }
}
