/** The names under which single values are kept, and the small lists among them. */
export const META = {
  me: "me",
  book: "book",
  server: "server",
  cursor: "cursor",
  compare: "compare",
  wanted: "wanted",
  reserve: "reserve",
  draft: (slot: string) => `draft:${slot}`,
  setting: (name: string) => `setting:${name}`,
};

type Readable = { get(key: string): Promise<unknown> };

/** A list of ours; empty when nothing was kept yet. */
export async function readList<T>(meta: Readable, key: string): Promise<T[]> {
  const kept = await meta.get(key);
  return Array.isArray(kept) ? (kept as T[]) : [];
}
