/** What has not yet reached the server: lines for entries, lines for blobs. */
import type { Entry } from "../journal/types";
import type { Context } from "./entries";
import { lineOf } from "./entries";
import { META, readList } from "./meta";
import { change, write } from "./transact";
import { PHOTO_CHOICES, type PhotoChoice } from "./types";
import type { BlobLine, ChecklistName, Choice, OutboxLine, Queue, Reason, Waiting } from "./types";

/** The name of the setting that says when photos may go. */
export const PHOTOS_SETTING = "photos";

/** Waiting and refused lines, in the order they were made; sent blobs are left out. */
export function waiting({ handle }: Context): Promise<Waiting> {
  return handle.use(async (db) => {
    const tx = db.transaction(["outbox", "blob_lines"]);
    const states = tx.objectStore("blob_lines").index("state");
    const [entries, open, refused] = await Promise.all([
      tx.objectStore("outbox").getAll(),
      states.getAll("waiting"),
      states.getAll("refused"),
    ]);
    return { entries, blobs: [...open, ...refused].sort((a, b) => a.kept_at - b.kept_at) };
  });
}

/** What the sender has before it, in one look. */
export async function queue(context: Context): Promise<Queue> {
  const lines = await waiting(context);
  const [compare, wanted, photos, sent] = await context.handle.use((db) => {
    const tx = db.transaction(["meta", "blob_lines"]);
    const meta = tx.objectStore("meta");
    return Promise.all([
      readList<string>(meta, META.compare),
      readList<ChecklistName>(meta, META.wanted),
      meta.get(META.setting(PHOTOS_SETTING)),
      tx.objectStore("blob_lines").index("state").count("sent"),
    ]);
  });
  const entries = lines.entries.filter((line) => line.state === "waiting");
  const blobs = lines.blobs.filter((line) => line.state === "waiting");
  const times = [...entries, ...blobs].map((line) => line.kept_at);
  return {
    entries: entries.length,
    entry_ids: entries.map((line) => line.id),
    blobs: blobs.length,
    refused: lines.entries.length + lines.blobs.length - entries.length - blobs.length,
    oldest: times.length === 0 ? null : times.reduce((a, b) => Math.min(a, b)),
    blob: blobs[0] ?? null,
    later_blobs: blobs.slice(1),
    compare,
    wanted,
    photos: asPhotoChoice(photos),
    sent,
  };
}

/** What was kept as the choice; "always" where nothing was, or nothing that is known. */
export function asPhotoChoice(kept: unknown): PhotoChoice {
  return PHOTO_CHOICES.find((one) => one === kept) ?? "always";
}

/** The oldest waiting entries of those that were chosen. */
export function batch({ handle }: Context, limit: number, choice: Choice = { but: [] }): Promise<Entry[]> {
  return handle.use(async (db) => {
    const tx = db.transaction(["outbox", "made"]);
    const lines = (await tx.objectStore("outbox").getAll()).filter((line) => line.state === "waiting");
    const made = tx.objectStore("made");
    const chosen = chosenOf(lines, choice).slice(0, limit);
    const entries = await Promise.all(chosen.map((line) => made.get(line.id)));
    return entries.filter((entry) => entry !== undefined);
  });
}

function chosenOf(lines: OutboxLine[], choice: Choice): OutboxLine[] {
  if ("but" in choice) return lines.filter(({ id }) => !choice.but.includes(id));
  return choice.only.flatMap((id) => lines.filter((line) => line.id === id));
}

/** Lines leave here, and nowhere else: the server has named their ids. Their cards are compared once all is sent. */
export async function settle(
  { handle, news }: Context,
  kept: string[],
  refused: { id: string; reason: Reason }[],
): Promise<void> {
  await handle.use((db) =>
    change(db, ["outbox", "meta"], "strict", async (tx) => {
      const outbox = tx.objectStore("outbox");
      const touched = new Set(await readList<string>(tx.objectStore("meta"), META.compare));
      const lines = await Promise.all(kept.map((id) => outbox.get(id)));
      for (const line of lines) if (line !== undefined) touched.add(line.card);
      for (const id of kept) write(outbox.delete(id));
      for (const { id, reason } of refused) {
        const line = await outbox.get(id);
        if (line !== undefined) write(outbox.put({ ...line, state: "refused", reason }));
      }
      write(tx.objectStore("meta").put([...touched], META.compare));
    }),
  );
  news.tell({ waiting: true });
}

/** Puts all that was made here for this card back in the outbox; refused lines stay refused. */
export async function offerAgain({ handle, news, now }: Context, card: string): Promise<void> {
  await handle.use((db) =>
    change(db, ["made", "outbox"], "strict", async (tx) => {
      const outbox = tx.objectStore("outbox");
      for (const entry of await tx.objectStore("made").index("card").getAll(card)) {
        if ((await outbox.getKey(entry.id)) === undefined) write(outbox.put(lineOf(entry, now())));
      }
    }),
  );
  news.tell({ waiting: true });
}

/** Sends these blobs anew, as far as this phone still has their bytes. */
export async function offerBlobsAgain({ handle, news }: Context, lackingBlobs: string[]): Promise<void> {
  await handle.use((db) =>
    change(db, ["blobs", "blob_lines"], "strict", async (tx) => {
      for (const sha256 of lackingBlobs) {
        const line = await tx.objectStore("blob_lines").get(sha256);
        const bytes = await tx.objectStore("blobs").getKey(sha256);
        if (line?.state !== "sent" || bytes === undefined) continue;
        write(tx.objectStore("blob_lines").put({ ...line, state: "waiting", held: 0 }));
      }
    }),
  );
  news.tell({ waiting: true });
}

/** Refused entries and blobs wait again. */
export async function offerRefused({ handle, news }: Context): Promise<void> {
  await handle.use((db) =>
    change(db, ["outbox", "blob_lines"], "strict", async (tx) => {
      for (const line of await tx.objectStore("outbox").getAll()) {
        if (line.state === "refused")
          write(tx.objectStore("outbox").put({ ...line, state: "waiting", reason: null }));
      }
      for (const line of await tx.objectStore("blob_lines").index("state").getAll("refused")) {
        write(tx.objectStore("blob_lines").put({ ...line, state: "waiting", held: 0, reason: null }));
      }
    }),
  );
  news.tell({ waiting: true });
}

/** Changes one blob's line. */
export async function changeBlobLine(
  { handle, news }: Context,
  sha256: string,
  difference: Partial<BlobLine>,
): Promise<void> {
  await handle.use((db) =>
    change(db, ["blob_lines"], "strict", async (tx) => {
      const lines = tx.objectStore("blob_lines");
      const line = await lines.get(sha256);
      if (line !== undefined) write(lines.put({ ...line, ...difference }));
    }),
  );
  news.tell({ waiting: true });
}

/** Frees room by dropping bytes that the server holds; their lines and entries stay. Gives the number of bytes freed. */
export async function dropSentBlobs(context: Context, sentBefore: number): Promise<number> {
  const sent = await sentBlobs(context, sentBefore);
  return dropBlobs(
    context,
    sent.map((line) => line.sha256),
  );
}

/** The blobs sent before this time whose bytes are still here. */
export function sentBlobs({ handle }: Context, sentBefore: number): Promise<BlobLine[]> {
  return handle.use(async (db) => {
    const tx = db.transaction(["blobs", "blob_lines"]);
    const [sent, here] = await Promise.all([
      tx.objectStore("blob_lines").index("state").getAll("sent"),
      tx.objectStore("blobs").getAllKeys(),
    ]);
    const names = new Set(here);
    return sent.filter((line) => (line.sent_at ?? line.kept_at) < sentBefore && names.has(line.sha256));
  });
}

/** Drops the bytes of these, as far as they are sent: one that was offered again meanwhile stays. */
export function dropBlobs({ handle }: Context, names: string[]): Promise<number> {
  return handle.use((db) =>
    change(db, ["blobs", "blob_lines"], "relaxed", async (tx) => {
      let freed = 0;
      for (const sha256 of names) {
        const line = await tx.objectStore("blob_lines").get(sha256);
        if (line?.state !== "sent") continue;
        write(tx.objectStore("blobs").delete(sha256));
        freed += line.bytes;
      }
      return freed;
    }),
  );
}
