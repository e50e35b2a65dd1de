/** How long the sender waits after a failure, and when that is over: longer each time, and never in step with other phones. */
import type { Failure } from "../api/result";
import type { Seen, SyncState } from "./state";
import type { SyncProblem } from "./status";

const FIRST_DELAY_MS = 1_000;
export const LONGEST_DELAY_MS = 60_000;
/** More of them do not make the delay any longer. */
const MOST_FAILURES = 10;
/** An answer that names nothing of what was asked. */
export const NOTHING_NAMED: Failure = { is: "not-our-server" };

/** times: failures before this one; dice: from 0 up to 1. What the server asked for is heeded up to the longest delay. */
export function delayAfter(times: number, problem: SyncProblem, dice: number): number {
  const ceiling = Math.min(LONGEST_DELAY_MS, FIRST_DELAY_MS * 2 ** times);
  const jittered = ceiling * (0.5 + dice / 2);
  const asked = problem.is === "problem" ? (problem.retry_after_s ?? 0) * 1_000 : 0;
  return Math.min(LONGEST_DELAY_MS, Math.max(jittered, asked));
}

/** People put clocks back: a moment that seems further away than any delay is over, too. */
export function isOver(moment: number | null, now: number): boolean {
  return moment === null || moment <= now || moment - now > LONGEST_DELAY_MS;
}

export function oneMore(failures: number): number {
  return Math.min(failures + 1, MOST_FAILURES);
}

/** Nothing at all is tried before the next delay is over. */
export function later(state: SyncState, problem: SyncProblem, { now, dice }: Seen): SyncState {
  const retry_at = now + delayAfter(state.failures, problem, dice);
  return { ...state, failures: oneMore(state.failures), retry_at, problem };
}

/** Something went well: what failed before counts no more. */
export function moved(state: SyncState): SyncState {
  return { ...state, failures: 0, retry_at: null, problem: null };
}
