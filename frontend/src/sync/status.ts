/** What the screens show of the sender; how it is found is `status-of.ts`, which a first screen does not wait for. */
import type { Failure } from "../api/result";
import type { PhotosWait } from "./link";

/** `store`: this phone's own database fails. */
export type SyncProblem = Failure | { is: "store"; fault: "full" | "lost" | "blocked" | "newer" };
/** An entry over which the server fails although it answers otherwise: it waits until all others have gone. */
export type StuckEntry = { id: string; failure: Failure };
export type SyncStatus = {
  /**
   * `signed-out`: nobody uses this phone. `sign-in-needed`: the server asks again; what waits is safe.
   * `sending`: something is on the wire. `waiting`: it did not work, the next try is planned. `retrying`: the same for
   * something while all else goes. `idle`: nothing to do.
   */
  phase: "signed-out" | "sign-in-needed" | "sending" | "waiting" | "retrying" | "idle";
  entries: number;
  blobs: number;
  /** why these photos and sounds are not sent now; null when they may go, or none waits */
  photos_wait: PhotosWait | null;
  refused: number;
  stuck: StuckEntry[];
  /** the photo or sound whose turn it is: bytes the server has confirmed, and its whole */
  blob: { sha256: string; done: number; total: number } | null;
  /** when the oldest unsent thing was kept, ms since 1970 */
  oldest: number | null;
  /** when our server last answered, ms since 1970 */
  last_contact: number | null;
  /** when the next try is due, ms since 1970 */
  next_try: number | null;
  problem: SyncProblem | null;
  /** how far this phone's clock is ahead of the server's, when that is more than two minutes */
  clock_off_ms: number | null;
  /** cards on which phone and server do not agree, in spite of all that was tried */
  out_of_step: string[];
};

export const NOTHING_KNOWN: SyncStatus = {
  phase: "idle",
  entries: 0,
  blobs: 0,
  photos_wait: null,
  refused: 0,
  stuck: [],
  blob: null,
  oldest: null,
  last_contact: null,
  next_try: null,
  problem: null,
  clock_off_ms: null,
  out_of_step: [],
};
