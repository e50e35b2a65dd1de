/** How long the sender waits after a failure, and when that is over: longer each time, and never in step with other phones. */
import type { Failure } from "../api/result";
import type { SyncState } from "./state";
import type { SyncProblem } from "./status";

const FIRST_DELAY_MS = 1_000;
export const LONGEST_DELAY_MS = 60_000;
/** More of them do not make the delay any longer. */
export const MOST_FAILURES = 10;
/** An answer that names nothing of what was asked. */
export const NOTHING_NAMED: Failure = { is: "not-our-server" };

/** times: failures before this one; dice: from 0 up to 1. What the server asked for is heeded up to the longest delay. */
export function delayAfter(times: number, problem: SyncProblem, dice: number): number {
  const ceiling = Math.min(LONGEST_DELAY_MS, FIRST_DELAY_MS * 2 ** times);
  const jittered = ceiling * (0.5 + dice / 2);
  const asked = problem.is === "problem" ? (problem.retry_after_s ?? 0) * 1_000 : 0;
  return Math.min(LONGEST_DELAY_MS, Math.max(jittered, asked));
}

/** Something went well: what failed before counts no more. */
export function moved(state: SyncState): SyncState {
  return { ...state, failures: 0, retry_at: null, problem: null };
}
