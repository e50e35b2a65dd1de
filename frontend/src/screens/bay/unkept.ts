/** Photos and sounds taken while the phone had no room: held while the app is open, so that each can be tried again. */
import { signal, type Signal } from "@preact/signals";
import type { Entry } from "../../journal/types";
import type { OpenCard } from "./open-card";

/** picture: null for a sound */
export type Unkept = { id: string; picture: Blob | null; again: (card: OpenCard) => Promise<void> };
/** The card may have been closed and opened again between two tries. */
type Keep = (card: OpenCard) => Promise<Entry | null>;

/** by the id of their card */
const held = new Map<string, Signal<readonly Unkept[]>>();

/** Those of this card, oldest first. */
export function unkeptOf(card: Pick<OpenCard, "id">): Signal<readonly Unkept[]> {
  const known = held.get(card.id) ?? signal<readonly Unkept[]>([]);
  held.set(card.id, known);
  return known;
}

/** Keeps a photo or sound, or holds it for another try where the phone has no room; null when it is not kept. */
export async function keepOrHold(
  card: OpenCard,
  id: string,
  picture: () => Blob | null,
  keep: Keep,
): Promise<Entry | null> {
  const entry = await keep(card);
  if (entry !== null) release(card, id);
  else if (card.fault.peek() === "full") {
    // What is said of the picture itself takes the place of the general words.
    card.fault.value = null;
    const again = (now: OpenCard) => keepOrHold(now, id, picture, keep).then(() => undefined);
    hold(card, { id, picture: picture(), again });
  }
  return entry;
}

/** It is kept now, or the person gives it up. */
export function release(card: OpenCard, id: string): void {
  const all = unkeptOf(card);
  if (all.peek().some((one) => one.id === id)) all.value = all.peek().filter((one) => one.id !== id);
}

/** One that is tried again in vain stays as it is, so that its picture does not blink. */
function hold(card: OpenCard, one: Unkept): void {
  const all = unkeptOf(card);
  if (!all.peek().some(({ id }) => id === one.id)) all.value = [...all.peek(), one];
}
