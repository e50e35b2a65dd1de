/** The last photo that looks blurred, until the person has said whether it will do. */
import { signal, type Signal } from "@preact/signals";
import type { EntryOf } from "../../journal/types";
import type { OpenCard } from "./open-card";

/** by the id of its card, which may be closed and opened again meanwhile */
const asked = new Map<string, Signal<EntryOf<"photo"> | null>>();

/** Of this card; null when there is nothing to ask. */
export function blurredOf(card: Pick<OpenCard, "id">): Signal<EntryOf<"photo"> | null> {
  const known = asked.get(card.id) ?? signal<EntryOf<"photo"> | null>(null);
  asked.set(card.id, known);
  return known;
}
