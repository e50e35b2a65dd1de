/** Ten seconds to take back what was just kept. */
import { useEffect } from "preact/hooks";
import { goOver, type Route } from "../route";
import { useBay } from "./context";
import type { Kept, OpenCard, Undo } from "./open-card";

export const UNDO_MS = 10_000;

/** Offers to take back what was just kept, with what stood in each slot until then. */
export function offerUndo(
  card: OpenCard,
  words: string,
  undo: (Kept | { kept: readonly Kept[] }) & { where?: Route; again?: (() => void) | undefined },
  nowMs: number,
): void {
  const kept = "kept" in undo ? undo.kept : [{ entry: undo.entry, before: undo.before }];
  card.undo.value = { words, kept, until: nowMs + UNDO_MS, where: undo.where ?? null, again: undo.again };
}

/** What the bar shows now, and its action. */
export function useUndo(card: OpenCard): { shown: Undo | null; undo: () => void } {
  const { nowMs } = useBay();
  const shown = card.undo.value;
  useEffect(() => {
    if (shown === null) return undefined;
    const timer = setTimeout(
      () => {
        if (card.undo.peek() === shown) card.undo.value = null;
      },
      Math.max(0, shown.until - nowMs()),
    );
    return () => clearTimeout(timer);
  }, [card, shown, nowMs]);
  const undo = () => {
    card.undo.value = null;
    if (!shown) return;
    void card.takeAllBack(shown.kept);
    shown.again?.();
    if (shown.where) goOver(shown.where);
  };
  return { shown, undo };
}
