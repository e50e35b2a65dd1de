/** Typed words that wait for "Keep", or for whoever leaves without it: kept once, whichever comes first. */
import { useRef } from "preact/hooks";
import type { Entry } from "../../journal/types";
import { useLeaving } from "../../ui/leaving";

export type By = "tap" | "leaving";
/** Hears what was kept; `again` puts back what an undo of it would lose. */
export type OnKept = (entry: Entry, before: Entry | null, more?: { by?: By; again?: () => void }) => void;
/** Calls `leave` when the check is left; gives the end of that. */
export type OnLeaving = (leave: () => void) => () => void;

/**
 * What keeps the words. `written` gives what there is to keep, null for nothing; what is being kept already is not kept
 * once more, by a second tap or by leaving.
 */
export function useKeeping<T>(
  written: (by: By) => T | null,
  keep: (what: T, by: By) => Promise<unknown>,
): (by: By) => Promise<void> {
  const now = useRef({ written, keep });
  now.current = { written, keep };
  const busy = useRef<string | null>(null);
  return async (by) => {
    const what = now.current.written(by);
    const sign = JSON.stringify(what);
    if (what === null || busy.current === sign) return;
    busy.current = sign;
    try {
      await now.current.keep(what, by);
    } finally {
      if (busy.current === sign) busy.current = null;
    }
  };
}

/** The controls of a check that want to know when it is left. One that is only put aside for another is not asked. */
export function useLeavers(): OnLeaving {
  const leavers = useRef(new Set<() => void>());
  useLeaving(() => {
    for (const leave of leavers.current) leave();
  });
  return (leave) => {
    leavers.current.add(leave);
    return () => leavers.current.delete(leave);
  };
}
