/** What stands: the entries that nothing replaces. It depends on the set of entries alone. */
import type { Entry, Standing } from "./types";

/** The part of an entry that decides what stands. */
export type Replacing = Pick<Entry, "id" | "slot" | "replaces">;

/**
 * For each slot of one card the entries no other entry of that slot names, oldest id first.
 *
 * Twice the same id counts once. Slots in order of their name; a slot whose entries are all replaced is left out.
 */
export function standing(entries: Iterable<Entry>): Standing {
  return standingOf(entries);
}

/** `standing` for anything that has an id, a slot and what it replaces. */
export function standingOf<E extends Replacing>(entries: Iterable<E>): Map<string, readonly E[]> {
  const slots = new Map<string, Map<string, E>>();
  const replaced = new Map<string, Set<string>>();
  for (const entry of entries) {
    into(slots, entry.slot, () => new Map<string, E>()).set(entry.id, entry);
    for (const id of entry.replaces)
      if (id !== entry.id) into(replaced, entry.slot, () => new Set<string>()).add(id);
  }
  const stand = new Map<string, readonly E[]>();
  for (const slot of [...slots.keys()].sort()) {
    const left = unreplaced(slots.get(slot), replaced.get(slot));
    if (left.length > 0) stand.set(slot, left);
  }
  return stand;
}

/** The slots in which two or more entries stand, in order of their name. */
export function disagreements(stand: ReadonlyMap<string, readonly unknown[]>): string[] {
  return [...stand].filter(([, entries]) => entries.length > 1).map(([slot]) => slot);
}

function into<V>(map: Map<string, V>, key: string, make: () => V): V {
  const held = map.get(key);
  if (held !== undefined) return held;
  const made = make();
  map.set(key, made);
  return made;
}

function unreplaced<E extends Replacing>(
  held: Map<string, E> | undefined,
  replaced: Set<string> | undefined,
): E[] {
  const left = [...(held?.values() ?? [])].filter((entry) => !replaced?.has(entry.id));
  return left.sort((a, b) => (a.id < b.id ? -1 : 1));
}
