/** Half-typed answers and running stopwatches: kept on the phone at every change, so that a killed app loses none. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { useBay } from "./context";

type Held<T> = { key: string; value: T | null; ready: boolean };
/** A new value, or what becomes of the present one: taps may come faster than the screen is drawn. */
export type SetDraft<T> = (next: T | null | ((held: T | null) => T | null)) => void;

/**
 * A value under a key of the store's drafts. `null` clears it.
 *
 * read: turns what was kept (any shape, perhaps an older one's) into a value, or null when it cannot.
 * The third part says whether the kept value has been read yet; writes before that win over it.
 */
export function useDraft<T>(
  key: string,
  read: (kept: unknown) => T | null,
): [T | null, SetDraft<T>, boolean] {
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
    void store.keepDraft(held.key, value);
  };
  return [latest.current.value, set, latest.current.ready];
}

function isChange<T>(next: T | null | ((held: T | null) => T | null)): next is (held: T | null) => T | null {
  return typeof next === "function";
}

/** A kept text, or null when it was something else. */
export function asText(kept: unknown): string | null {
  return typeof kept === "string" ? kept : null;
}
