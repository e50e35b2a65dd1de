/** What the store holds as single values, as signals that follow it in this tab and the others. */
import { signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Book } from "../measure/book";
import { StoreError, type StoreFault } from "../store/errors";
import type { Me, Store, Waiting } from "../store/types";

export type KeptSignals = {
  me: ReadonlySignal<Me | null | undefined>;
  book: ReadonlySignal<Book | null | undefined>;
  waiting: ReadonlySignal<Waiting>;
  trouble: ReadonlySignal<StoreFault | null>;
};

export function kept(store: Store): KeptSignals {
  const me = signal<Me | null | undefined>(undefined);
  const book = signal<Book | null | undefined>(undefined);
  const waiting = signal<Waiting>({ entries: [], blobs: [] });
  const trouble = signal<StoreFault | null>(null);
  const reads = {
    waiting: follow(waiting, () => store.waiting(), trouble),
    me: follow(me, () => afterFirst(store.me()), trouble),
    book: follow(book, () => afterFirst(store.book()), trouble),
  };
  // Nothing is shown before it is known who is signed in; until then what waits is known, too, so that no screen
  // says for a moment that all is sent. All three are read at once.
  const first = reads.waiting();
  const afterFirst = async <T>(read: Promise<T>): Promise<T> => {
    const [value] = await Promise.all([read, first]);
    return value;
  };
  store.watchKept((what) => {
    if (what === "me" || what === "book") void reads[what]();
  });
  store.watchWaiting(() => void reads.waiting());
  void reads.me();
  void reads.book();
  return { me, book, waiting, trouble };
}

/** Reads again when asked; of several reads under way only the last one counts. */
function follow<T>(
  into: Signal<T>,
  read: () => Promise<T>,
  trouble: Signal<StoreFault | null>,
): () => Promise<void> {
  let latest = 0;
  return () => {
    const mine = ++latest;
    return read().then(
      (value) => {
        if (mine === latest) into.value = value;
        trouble.value = null;
      },
      (error: unknown) => {
        if (!(error instanceof StoreError)) throw error;
        trouble.value = error.fault;
      },
    );
  };
}
