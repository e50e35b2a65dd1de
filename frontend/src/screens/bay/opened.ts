/** The day a card was opened: kept once, with the first thing that is kept on it. */
import { useEffect, useRef } from "preact/hooks";
import type { CardState } from "../../journal/types";
import type { OpenCard } from "./open-card";

const SLOT = "card/opened";

/** Writes the fact when the card has something on it and does not say its day yet; an empty card stays none. */
export function useOpened(card: OpenCard, state: CardState): void {
  const asked = useRef(false);
  const isDue = state.entries.length > 0 && !state.standing.has(SLOT);
  useEffect(() => {
    if (!isDue || asked.current) return;
    asked.current = true;
    void card.keep("fact", SLOT, { value: dayOf(startOf(card.id)) });
  }, [card, isDue]);
}

/** When a UUIDv7 was made: its first 48 bits are ms since 1970 (RFC 9562). */
export function startOf(id: string): number {
  return Number.parseInt(id.replaceAll("-", "").slice(0, 12), 16);
}

/** The day on this phone's calendar, as in 2026-11-20. */
export function dayOf(ms: number): string {
  const at = new Date(ms);
  const two = (part: number) => String(part).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
