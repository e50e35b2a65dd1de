/** Single values: who is signed in, the book, checklists of older versions, drafts and settings. */
import type { Book, Checklist } from "../measure/book";
import type { Context } from "./entries";
import { META } from "./meta";
import { change, write } from "./transact";
import type { Me } from "./types";

export async function me(context: Context): Promise<Me | null> {
  return ((await read(context, META.me)) as Me | undefined) ?? null;
}

export async function keepMe(context: Context, person: Me): Promise<void> {
  await keep(context, META.me, person);
  context.news.tell({ kept: "me" });
}

/** Forgets who is signed in, and nothing else: unsent work stays. */
export async function forgetMe(context: Context): Promise<void> {
  await context.handle.use((db) => db.delete("meta", META.me));
  context.news.tell({ kept: "me" });
}

export async function book(context: Context): Promise<Book | null> {
  return ((await read(context, META.book)) as Book | undefined) ?? null;
}

/** Keeps the book, and each of its checklists by version, for cards that stay with that version. */
export async function keepBook({ handle, news }: Context, kept: Book): Promise<void> {
  await handle.use((db) =>
    change(db, ["meta", "checklists"], "strict", async (tx) => {
      write(tx.objectStore("meta").put(kept, META.book));
      for (const one of kept.checklists) write(tx.objectStore("checklists").put(one));
    }),
  );
  news.tell({ kept: "book" });
}

export function checklist({ handle }: Context, id: string, version: number): Promise<Checklist | null> {
  return handle.use(async (db) => (await db.get("checklists", [id, version])) ?? null);
}

export async function keepChecklist({ handle, news }: Context, kept: Checklist): Promise<void> {
  await handle.use((db) => db.put("checklists", kept));
  news.tell({ kept: "checklist" });
}

export function draft(context: Context, slot: string): Promise<unknown> {
  return read(context, META.draft(slot));
}

/** The drafts whose slot begins with `under`, by slot. */
export function drafts({ handle }: Context, under: string): Promise<Record<string, unknown>> {
  const first = META.draft(under);
  return handle.use(async (db) => {
    const { store } = db.transaction("meta");
    const range = IDBKeyRange.bound(first, `${first}\uffff`);
    const [keys, values] = await Promise.all([store.getAllKeys(range), store.getAll(range)]);
    return Object.fromEntries(keys.map((key, at) => [key.slice(META.draft("").length), values[at]]));
  });
}

/** `null` or `undefined` drops the draft. */
export function keepDraft(context: Context, slot: string, value: unknown): Promise<void> {
  return keep(context, META.draft(slot), value);
}

export function setting(context: Context, name: string): Promise<unknown> {
  return read(context, META.setting(name));
}

export function keepSetting(context: Context, name: string, value: unknown): Promise<void> {
  return keep(context, META.setting(name), value);
}

function read({ handle }: Context, key: string): Promise<unknown> {
  return handle.use((db) => db.get("meta", key));
}

function keep({ handle }: Context, key: string, value: unknown): Promise<void> {
  return handle.use(async (db) => {
    if (value === null || value === undefined) await db.delete("meta", key);
    else await db.put("meta", value, key);
  });
}
