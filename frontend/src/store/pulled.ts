/** What arrives from the server: pages with their cursor, and what must be compared with it. */
import type { IDBPTransaction } from "idb";
import type { Context } from "./entries";
import { pagesOf } from "./entries";
import { META, readList } from "./meta";
import type { Tables } from "./schema";
import { change, write } from "./transact";
import type { ChecklistName, PulledEntry, Server } from "./types";

/** A page is filled up to this many entries before the next one is begun. */
const PAGE_ENTRIES = 500;

type Tx = IDBPTransaction<Tables, ("pulled" | "meta" | "checklists" | "outbox")[], "readwrite">;

export function cursor({ handle }: Context): Promise<number> {
  return handle.use(async (db) => {
    return asCursor(await db.get("meta", META.cursor));
  });
}

function asCursor(kept: unknown): number {
  return typeof kept === "number" ? kept : 0;
}

export function server({ handle }: Context): Promise<Server | null> {
  return handle.use(async (db) => ((await db.get("meta", META.server)) as Server | undefined) ?? null);
}

/**
 * The entries and the cursor behind them in one transaction: the cursor never passes what was not kept.
 * `after`: where the page was asked for to begin; it moves the cursor only if that stands there still.
 */
export async function keepPage(
  { handle, news }: Context,
  entries: PulledEntry[],
  next: number,
  after?: number,
): Promise<void> {
  const byCard = groupByCard(entries);
  let cleared = false;
  await handle.use((db) =>
    change(db, ["pulled", "meta", "checklists", "outbox"], "relaxed", async (tx) => {
      cleared = await clearNamed(tx, entries);
      for (const [card, arrived] of byCard) await addToCard(tx, card, arrived);
      await noteWanted(tx, entries);
      const stands = asCursor(await tx.objectStore("meta").get(META.cursor));
      if (after === undefined || after === stands) write(tx.objectStore("meta").put(next, META.cursor));
    }),
  );
  if (entries.length > 0) news.tell({ cards: [...byCard.keys()], waiting: cleared });
}

/** Another server, or one restored from a backup: pull from the start and compare every card made here. */
export function meetServer({ handle }: Context, met: Server): Promise<void> {
  return handle.use((db) =>
    change(db, ["meta", "made"], "strict", async (tx) => {
      const cards = new Set((await tx.objectStore("made").getAll()).map((entry) => entry.card));
      const meta = tx.objectStore("meta");
      write(meta.put(met, META.server));
      write(meta.put(0, META.cursor));
      write(meta.put([...cards], META.compare));
    }),
  );
}

/**
 * Another workshop uses this phone now: what was fetched for the one before it goes, and is fetched anew when that comes
 * back. What was made here stays.
 */
export async function leaveWorkshop({ handle, news }: Context): Promise<void> {
  let left: string[] = [];
  await handle.use((db) =>
    change(db, ["pulled", "meta"], "strict", async (tx) => {
      left = (await tx.objectStore("pulled").getAllKeys()).map(([card]) => card);
      write(tx.objectStore("pulled").clear());
      write(tx.objectStore("meta").put(0, META.cursor));
      write(tx.objectStore("meta").put([], META.compare));
    }),
  );
  news.tell({ cards: [...new Set(left)] });
}

export function pullAgain({ handle }: Context): Promise<void> {
  return handle.use(async (db) => {
    await db.put("meta", 0, META.cursor);
  });
}

/** Every id of the card that the server ought to have: all but those still waiting and those it refused. */
export function settledIds({ handle }: Context, card: string): Promise<string[]> {
  return handle.use(async (db) => {
    const tx = db.transaction(["made", "pulled", "outbox"]);
    const [made, pages, open] = await Promise.all([
      tx.objectStore("made").index("card").getAllKeys(card),
      tx.objectStore("pulled").getAll(pagesOf(card)),
      tx.objectStore("outbox").getAllKeys(),
    ]);
    const ids = new Set(pages.flatMap((page) => page.entries.map((entry) => entry.id)));
    const unsettled = new Set(open);
    for (const id of made) if (!unsettled.has(id)) ids.add(id);
    return [...ids];
  });
}

export function takeFromList(
  { handle }: Context,
  key: string,
  isIt: (item: unknown) => boolean,
): Promise<void> {
  return handle.use((db) =>
    change(db, ["meta"], "relaxed", async (tx) => {
      const meta = tx.objectStore("meta");
      const rest = (await readList<unknown>(meta, key)).filter((item) => !isIt(item));
      write(meta.put(rest, key));
    }),
  );
}

function groupByCard(entries: PulledEntry[]): Map<string, PulledEntry[]> {
  const byCard = new Map<string, PulledEntry[]>();
  for (const entry of entries) {
    const ofCard = byCard.get(entry.card);
    if (ofCard === undefined) byCard.set(entry.card, [entry]);
    else ofCard.push(entry);
  }
  return byCard;
}

/** Handing an entry out, the server has named its id, even when the answer to our push was lost. */
async function clearNamed(tx: Tx, entries: PulledEntry[]): Promise<boolean> {
  const outbox = tx.objectStore("outbox");
  const open = new Map((await outbox.getAll()).map((line) => [line.id, line]));
  const named = entries.filter(({ id }) => open.has(id) && open.get(id)?.reason?.code !== "id-conflict");
  for (const { id } of named) write(outbox.delete(id));
  return named.length > 0;
}

async function addToCard(tx: Tx, card: string, arrived: PulledEntry[]): Promise<void> {
  const store = tx.objectStore("pulled");
  const pages = await store.getAll(pagesOf(card));
  const known = new Set(pages.flatMap((page) => page.entries.map((entry) => entry.id)));
  const fresh = arrived.filter((entry) => !known.has(entry.id));
  const last = pages.at(-1);
  if (fresh.length === 0) return;
  if (last !== undefined && last.entries.length + fresh.length <= PAGE_ENTRIES) {
    write(store.put({ ...last, entries: [...last.entries, ...fresh] }));
  } else {
    write(store.put({ card, page: (last?.page ?? 0) + 1, entries: fresh }));
  }
}

async function noteWanted(tx: Tx, entries: PulledEntry[]): Promise<void> {
  const wanted = await readList<ChecklistName>(tx.objectStore("meta"), META.wanted);
  const before = wanted.length;
  for (const entry of entries) {
    if (entry.kind !== "checklist-chosen") continue;
    const name = { id: entry.slot.split("/")[2] ?? "", version: entry.body.version };
    if (wanted.some((one) => one.id === name.id && one.version === name.version)) continue;
    if (!(await isHeld(tx, name))) wanted.push(name);
  }
  if (wanted.length > before) write(tx.objectStore("meta").put(wanted, META.wanted));
}

async function isHeld(tx: Tx, name: ChecklistName): Promise<boolean> {
  return (await tx.objectStore("checklists").getKey([name.id, name.version])) !== undefined;
}
