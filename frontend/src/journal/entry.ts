/** Making an entry, the thing that a tap adds and nothing ever changes. */
import type { BodyOf, EntryOf, Kind } from "./types";
import { RANDOM_BYTES, uuid7 } from "./uuid7";

export type { Entry, EntryOf, Kind } from "./types";

/** The newest entry format this code writes and reads. */
export const FORMAT = 1;

/** Who writes, on which card, and where the time (ms since 1970 UTC) and the random bytes come from. */
export type EntryContext = {
  card: string;
  author: string;
  device: string;
  nowMs: () => number;
  randomBytes: (count: number) => Uint8Array;
  /** how far this clock is known to be ahead of the server's; null when it is near enough or was never compared */
  clockOffMs?: () => number | null;
};

/** A new entry with its own id; `replaces` are the ids of the entries its author saw standing in the slot. */
export function newEntry<K extends Kind>(
  kind: K,
  slot: string,
  body: BodyOf<K>,
  replaces: readonly string[],
  context: EntryContext,
): EntryOf<K> {
  const nowMs = context.nowMs();
  const off = context.clockOffMs?.() ?? null;
  return {
    id: uuid7(nowMs, context.randomBytes(RANDOM_BYTES)),
    card: context.card,
    slot,
    kind,
    body,
    replaces: [...replaces],
    author: context.author,
    device: context.device,
    made_at: new Date(nowMs).toISOString(),
    format: FORMAT,
    ...(off === null ? {} : { clock_off_ms: Math.round(off) }),
  };
}
