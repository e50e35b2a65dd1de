/** Half-typed answers and running stopwatches: kept on the phone at every change, so that a killed app loses none. */
import { signal } from "@preact/signals";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { useBay } from "./context";

type Held<T> = { key: string; value: T | null; ready: boolean };
/** A new value, or what becomes of the present one: taps may come faster than the screen is drawn. */
export type SetDraft<T> = (next: T | null | ((held: T | null) => T | null)) => void;

/** Counts the changes of drafts on the phone, for what lists them. */
export const draftsChanged = signal(0);

let written: Promise<unknown> = Promise.resolve();

/** Resolves when what was typed until now is on the phone. */
export async function draftsWritten(): Promise<void> {
  await written;
}

/**
 * A value under a key of the store's drafts. `null` clears it.
 *
 * read: turns what was kept (any shape, perhaps an older one's) into a value, or null when it cannot.
 * The third part says whether the kept value has been read yet; writes before that win over it. The fourth gives the
 * value of this very moment, which the first may lag behind.
 */
export function useDraft<T>(
  key: string,
  read: (kept: unknown) => T | null,
): [T | null, SetDraft<T>, boolean, () => T | null] {
  const { store } = useBay();
  const latest = useRef<Held<T>>({ key, value: null, ready: false });
  if (latest.current.key !== key) latest.current = { key, value: null, ready: false };
  const [, redraw] = useState({});
  const reading = useRef(read);
  reading.current = read;
  useLayoutEffect(() => {
    void store.draft(key).then((kept) => {
      if (latest.current.key !== key || latest.current.ready) return;
      const value = kept === undefined || kept === null ? null : reading.current(kept);
      latest.current = { key, value, ready: true };
      redraw({});
    });
  }, [store, key]);
  const set: SetDraft<T> = (next) => {
    const held = latest.current;
    const value = isChange(next) ? next(held.value) : next;
    latest.current = { ...held, value, ready: true };
    redraw({});
    const write = store.keepDraft(held.key, value).then(() => {
      draftsChanged.value = draftsChanged.peek() + 1;
    });
    const before = written;
    written = write.catch(() => undefined).then(() => before);
    void write;
  };
  return [latest.current.value, set, latest.current.ready, () => latest.current.value];
}

function isChange<T>(next: T | null | ((held: T | null) => T | null)): next is (held: T | null) => T | null {
  return typeof next === "function";
}

/** A kept text, or null when it was something else. */
export function asText(kept: unknown): string | null {
  return typeof kept === "string" ? kept : null;
}
