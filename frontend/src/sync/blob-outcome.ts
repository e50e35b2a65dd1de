/** What the sender learns from sending photos and sounds. */
import { delayAfter, moved, NOTHING_NAMED, oneMore } from "./delay";
import { PIECE_BYTES, type Outcome, type Seen, type SyncState } from "./state";
import type { SyncProblem } from "./status";

const SMALLEST_PIECE_BYTES = 64 * 1024;
export const BLOBS_MOVE = { stuck: [], blob_failures: 0, blobs_after: null };

/** The server holds more of one than before, or says that it does not. */
export function held(state: SyncState, outcome: Outcome & { of: "held" }, seen: Seen): SyncState {
  const known = { ...state, sure_of: outcome.sha256, cut: null };
  if (!outcome.moved) return blobFailed(known, outcome.sha256, NOTHING_NAMED, seen);
  const piece_bytes = Math.min(PIECE_BYTES * 2, state.piece_bytes * 2);
  const stuck = state.stuck.filter((name) => name !== outcome.sha256);
  // Its bytes are free to go now: there may be room again for what the server has.
  const no_room = state.no_room && !outcome.complete;
  return moved({ ...known, ...BLOBS_MOVE, stuck, piece_bytes, no_room });
}

/** One that fails lets the others go first, and all of them wait a little: rarer and rarer while none moves. */
export function blobFailed(
  state: SyncState,
  sha256: string,
  problem: SyncProblem,
  { now, dice }: Seen,
): SyncState {
  const stuck = [...state.stuck.filter((name) => name !== sha256), sha256];
  const blobs_after = now + delayAfter(state.blob_failures, problem, dice);
  return { ...state, stuck, blobs_after, blob_failures: oneMore(state.blob_failures), problem };
}

/** Nobody knows how much of a cut piece arrived; smaller ones lose less. */
export function afterCut({ doing, cut, piece_bytes }: SyncState): Partial<SyncState> {
  if (doing?.step.do !== "put-piece") return { sure_of: null, cut };
  const { sha256 } = doing.step.blob;
  return { sure_of: null, cut: sha256, piece_bytes: Math.max(SMALLEST_PIECE_BYTES, piece_bytes / 2) };
}
