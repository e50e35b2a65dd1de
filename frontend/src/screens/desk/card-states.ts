/** The computed states of all cards this desk holds, kept up to date as entries arrive. */
import { signal, type ReadonlySignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { cardState } from "../../journal/card";
import type { CardState } from "../../journal/types";
import { useBay, type Bay } from "../bay/context";

export type CardStates = ReadonlyMap<string, CardState>;

/** null until the first reading of the store is through. */
export function useCardStates(): ReadonlySignal<CardStates | null> {
  const bay = useBay();
  const states = useMemo(() => signal<CardStates | null>(null), []);
  useEffect(() => {
    let stopped = false;
    const readOne = async (card: string) => {
      const state = await stateOf(bay, card);
      if (!stopped) states.value = new Map(states.peek() ?? []).set(card, state);
    };
    void (async () => {
      const cards = await bay.store.cards();
      const all = await Promise.all(cards.map(async (card) => [card, await stateOf(bay, card)] as const));
      if (!stopped) states.value = new Map(all);
    })();
    const stopWatching = bay.store.watch((card) => void readOne(card));
    return () => {
      stopped = true;
      stopWatching();
    };
  }, [bay, states]);
  return states;
}

async function stateOf(bay: Bay, card: string): Promise<CardState> {
  return cardState(await bay.store.entriesOf(card), bay.book);
}
