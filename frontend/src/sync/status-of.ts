/** Finds what the screens are to show of the sender. */
import { blobInTurn, photosWait } from "./plan";
import { pushDue } from "./push-turn";
import type { Seen, SyncState } from "./state";
import type { SyncStatus } from "./status";

/** What the screens are to show for this state, and the queue and link it was planned for. */
export function statusOf(state: SyncState, seen: Pick<Seen, "queue" | "link">): SyncStatus {
  const { queue } = seen;
  const blob = blobInTurn(state, queue);
  const next_try = nextTry(state, seen);
  return {
    phase: phaseOf(state, next_try),
    entries: queue.entries,
    blobs: queue.blobs,
    photos_wait: photosWait(state, seen),
    refused: queue.refused,
    // Where everything fails nobody can tell that it is because of this entry.
    stuck: state.failures === 0 ? state.stuck_entries : [],
    blob: blob === null ? null : { sha256: blob.sha256, done: blob.held, total: blob.bytes },
    oldest: queue.oldest,
    last_contact: state.last_contact,
    next_try,
    problem: state.problem,
    clock_off_ms: state.clock_off_ms,
    out_of_step: state.out_of_step,
  };
}

function phaseOf(state: SyncState, next_try: number | null): SyncStatus["phase"] {
  if (state.sign_in_needed) return "sign-in-needed";
  if (!state.signed_in) return "signed-out";
  if (state.doing !== null) return "sending";
  if (next_try === null) return "idle";
  return state.retry_at === null ? "retrying" : "waiting";
}

function nextTry(state: SyncState, seen: Pick<Seen, "queue" | "link">): number | null {
  if (state.retry_at !== null) return state.retry_at;
  const mayGo = seen.queue.blobs > 0 && photosWait(state, seen) === null;
  return pushDue(state, seen.queue) ?? (mayGo ? state.blobs_after : null);
}
