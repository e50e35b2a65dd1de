/** What the sender learns from sending entries: a batch over which the server fails is narrowed down to the one entry. */
import type { Failure } from "../api/result";
import { delayAfter, later, moved, NOTHING_NAMED, oneMore } from "./delay";
import { DOUBTFUL } from "./push-turn";
import { BATCH_ENTRIES, type Outcome, type Seen, type SyncState } from "./state";
import type { SyncProblem } from "./status";

/** Lines wait whose entries this phone no longer has. */
const NOTHING_THERE: SyncProblem = { is: "store", fault: "lost" };
/** The answers of a server that is busy, full, or cannot be reached: they say nothing about what was sent. */
const NOT_OVER_THIS = [502, 503, 504, 507];

export function pushed(state: SyncState, outcome: Outcome & { of: "push" }, seen: Seen): SyncState {
  // An answer that names none of our ids would have us ask the same again at once, for ever.
  if (outcome.settled === 0) return later(state, outcome.sent > 0 ? NOTHING_NAMED : NOTHING_THERE, seen);
  const batch_limit = Math.min(BATCH_ENTRIES, state.batch_limit * 2);
  const stuck = areStuck(state) ? { stuck_after: null, stuck_failures: 0 } : {};
  return moved({ ...state, batch_limit, unanswered: 0, push_after: null, push_failures: 0, ...stuck });
}

export function pushFailed(state: SyncState, outcome: Outcome & { of: "failed" }, seen: Seen): SyncState {
  const { failure } = outcome;
  if (isUnreadable(failure)) return smaller(state, outcome);
  if (failure.is === "problem") {
    const answered = { ...state, unanswered: 0 };
    return isFault(failure) ? stumbled(answered, outcome, seen) : later(answered, failure, seen);
  }
  return unanswered(state, outcome, seen);
}

/**
 * Nobody answered. That is mostly the link; where all else is answered meanwhile, it is what was sent. What takes too
 * long goes in smaller parts in any case.
 */
function unanswered(state: SyncState, outcome: Outcome & { of: "failed" }, seen: Seen): SyncState {
  const { failure, sent } = outcome;
  const isSlow = failure.is === "unreachable" && failure.why === "time" && sent > 1;
  const less = isSlow ? { batch_limit: Math.floor(sent / 2) } : {};
  const counted = { ...state, ...less, unanswered: oneMore(state.unanswered), answered_else: false };
  const isOverThis = state.unanswered >= DOUBTFUL && state.answered_else;
  return isOverThis ? stumbled(counted, outcome, seen) : later(counted, failure, seen);
}

/** The server refuses the batch as a whole: halve it until the one entry that it cannot read is alone. */
function isUnreadable(failure: Failure): boolean {
  return failure.is === "problem" && [400, 413, 415, 422].includes(failure.status);
}

function smaller(state: SyncState, { failure, sent, first }: Outcome & { of: "failed" }): SyncState {
  if (sent === 1) return { ...state, set_aside: { failure, entry: first ?? null }, batch_limit: 1 };
  return { ...state, batch_limit: Math.floor(sent / 2) };
}

function isFault(failure: Failure): boolean {
  return failure.is === "problem" && failure.status >= 500 && !NOT_OVER_THIS.includes(failure.status);
}

/** Half of it is tried soon; an entry that was alone lets the others go first and is tried ever more rarely. */
function stumbled(state: SyncState, outcome: Outcome & { of: "failed" }, { now, dice }: Seen): SyncState {
  const { failure, sent, first } = outcome;
  const known = { ...state, problem: failure };
  const after = (failures: number) => now + delayAfter(failures, failure, dice);
  if (sent > 1) {
    const soon = areStuck(state) ? { stuck_after: after(0) } : { push_after: after(0) };
    return { ...known, ...soon, batch_limit: Math.floor(sent / 2) };
  }
  const others = state.stuck_entries.filter(({ id }) => id !== first);
  const stuck = {
    stuck_entries: first === undefined ? others : [...others, { id: first, failure }],
    stuck_after: after(state.stuck_failures),
    stuck_failures: oneMore(state.stuck_failures),
  };
  if (areStuck(state)) return { ...known, ...stuck, batch_limit: 1 };
  const { push_failures } = state;
  const next = { push_after: after(push_failures), push_failures: oneMore(push_failures) };
  return { ...known, ...stuck, ...next, batch_limit: 1 };
}

/** Whether the entries that were sent are those that let the others go first. */
function areStuck({ doing }: SyncState): boolean {
  return doing?.step.do === "push" && doing.step.choice !== undefined && "only" in doing.step.choice;
}
