/** All entries of a slot in the order they were made, and whether the clock they were made by can be believed. */
import type { CardState, Entry } from "../../journal/types";

const LEEWAY_MS = 2 * 60_000;
const slotsOf = new WeakMap<CardState, Map<string, Entry[]>>();

/** Oldest first. */
export function historyOf(state: CardState, slot: string): readonly Entry[] {
  return bySlot(state).get(slot) ?? [];
}

/** Why the time of an entry is in doubt: later than now or than the signature that holds it; or before what it replaces. */
export type Doubt = "ahead" | "before-replaced";

/** nowMs: this desk's clock, ms since 1970. */
export function doubtOf(entry: Entry, state: CardState, nowMs: number): Doubt | null {
  const made = Date.parse(entry.made_at);
  if (made > nowMs + LEEWAY_MS || isLaterThanItsSignature(entry, made, state)) return "ahead";
  const replaced = historyOf(state, entry.slot).filter((older) => entry.replaces.includes(older.id));
  return replaced.some((older) => Date.parse(older.made_at) > made + LEEWAY_MS) ? "before-replaced" : null;
}

/** The server signs by its own clock what had arrived by then. */
function isLaterThanItsSignature(entry: Entry, made: number, state: CardState): boolean {
  const arrival = arrivalOf(entry);
  if (arrival === null) return false;
  return historyOf(state, "stage").some(
    (signed) =>
      signed.kind === "signed-off" &&
      arrival <= signed.body.arrival &&
      made > Date.parse(signed.made_at) + LEEWAY_MS,
  );
}

/** Entries that came from the server carry their place in its order of arrival. */
function arrivalOf(entry: Entry & { arrival?: unknown }): number | null {
  return typeof entry.arrival === "number" ? entry.arrival : null;
}

function bySlot(state: CardState): Map<string, Entry[]> {
  const known = slotsOf.get(state);
  if (known) return known;
  const made = new Map<string, Entry[]>();
  for (const entry of [...state.entries].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    const list = made.get(entry.slot);
    if (list) list.push(entry);
    else made.set(entry.slot, [entry]);
  }
  slotsOf.set(state, made);
  return made;
}
