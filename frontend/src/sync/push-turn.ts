/** Which entries are sent next, and when: all others go before those over which the server fails. */
import type { Queue } from "../store/types";
import { isOver } from "./delay";
import type { Seen, Step, SyncState } from "./state";

/** After so many pushes without an answer the phone asks something else first, to know whether it is the link. */
export const DOUBTFUL = 2;

/** The next step that sends entries or makes way for them; null when there is none, or none yet. */
export function pushStep(state: SyncState, { queue, now }: Seen): Step | null {
  if (queue.entries === 0) return null;
  if (state.set_aside !== null) return { do: "set-aside", ...state.set_aside };
  if (!isOver(pushDue(state, queue), now)) return null;
  if (state.unanswered >= DOUBTFUL && !state.answered_else) return { do: "refresh" };
  const stuck = state.stuck_entries.map(({ id }) => id);
  const limit = state.batch_limit;
  if (stuck.length === 0) return { do: "push", limit };
  return { do: "push", limit, choice: areOthers(state, queue) ? { but: stuck } : { only: stuck } };
}

/** When entries are sent again, ms since 1970; null for at once, and when none waits. */
export function pushDue(state: SyncState, queue: Queue): number | null {
  if (queue.entries === 0) return null;
  return areOthers(state, queue) ? state.push_after : state.stuck_after;
}

/** What was sent, taken out of the way or let go of meanwhile is stuck no longer. */
export function stillStuck(state: SyncState, { queue }: Seen): SyncState {
  if (state.stuck_entries.length === 0) return state;
  const waits = new Set(queue.entry_ids);
  return { ...state, stuck_entries: state.stuck_entries.filter(({ id }) => waits.has(id)) };
}

function areOthers({ stuck_entries }: SyncState, { entries }: Queue): boolean {
  return entries > stuck_entries.length;
}
