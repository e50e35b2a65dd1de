/** Tells the listeners of this tab and of the other tabs what changed in the store. */
import type { Entry } from "../journal/types";
import type { CardListener, Kept } from "./types";

/** made: the entries that were just made here, when that is all that changed on their cards */
export type Change = { cards: string[]; made?: Entry[]; waiting: boolean; kept: Kept | null };

/** The part of BroadcastChannel that is needed here. */
export type Channel = {
  postMessage(message: unknown): void;
  onmessage: ((event: MessageEvent) => void) | null;
  close(): void;
};

export class News {
  readonly #cards = new Set<CardListener>();
  readonly #waiting = new Set<() => void>();
  readonly #kept = new Set<(what: Kept) => void>();

  constructor(private readonly channel: Channel | null) {
    if (channel !== null) {
      channel.onmessage = (event) => {
        if (isChange(event.data)) this.#spread(event.data);
      };
    }
  }

  /** To be called only after the transaction is complete. */
  tell(change: Partial<Change>): void {
    const whole: Change = { cards: [], waiting: false, kept: null, ...change };
    this.#spread(whole);
    this.channel?.postMessage(whole);
  }

  watchCards(listener: CardListener): () => void {
    return join(this.#cards, listener);
  }

  watchWaiting(listener: () => void): () => void {
    return join(this.#waiting, listener);
  }

  watchKept(listener: (what: Kept) => void): () => void {
    return join(this.#kept, listener);
  }

  close(): void {
    this.channel?.close();
  }

  #spread(change: Change): void {
    for (const card of change.cards) {
      const made = change.made?.filter((entry) => entry.card === card) ?? null;
      for (const listener of this.#cards) listener(card, made);
    }
    if (change.waiting) for (const listener of this.#waiting) listener();
    if (change.kept !== null) for (const listener of this.#kept) listener(change.kept);
  }
}

function join<T>(listeners: Set<T>, listener: T): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

function isChange(data: unknown): data is Change {
  return typeof data === "object" && data !== null && "cards" in data && Array.isArray(data.cards);
}
