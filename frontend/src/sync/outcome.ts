/** What the sender learns from the outcome of its step. */
import type { Failure } from "../api/result";
import { afterCut, blobFailed, BLOBS_MOVE, held } from "./blob-outcome";
import { delayAfter, later, moved, oneMore } from "./delay";
import { pushed, pushFailed } from "./push-outcome";
import { PAGE_ENTRIES } from "./state";
import type { Outcome, Seen, SyncState } from "./state";

/** Less than this nobody notices in a time of day. */
const CLOCK_OFF_MS = 120_000;
const SMALLEST_PAGE_ENTRIES = 50;
const FROM_THE_START = { to_pull: true, unlike: {}, out_of_step: [], recheck: [] };

/** The state after the outcome of the present step. */
export function take(state: SyncState, outcome: Outcome, seen: Seen): SyncState {
  if (outcome.of === "failed") return failed(state, outcome, seen);
  if (outcome.of === "store-failed") return storeFailed(state, outcome, seen);
  const reached = { ...state, last_contact: seen.now, answered_else: true };
  switch (outcome.of) {
    case "push":
      return pushed(reached, outcome, seen);
    case "pull":
      return pulled(reached, outcome);
    case "no-room":
      return { ...reached, no_room: true, problem: { is: "store", fault: "full" } };
    case "asked":
      // An answer, but nothing moved: the delays and pieces stay as the last failure left them.
      return { ...reached, sure_of: outcome.sha256, cut: null };
    case "held":
      return held(reached, outcome, seen);
    case "compare":
      return compared(reached, outcome);
    case "refresh":
      return refreshed(reached, outcome, seen);
    case "set-aside":
      return { ...state, set_aside: null };
    case "fetch-checklist":
      return moved(reached);
    case "blob-refused":
      return moved({ ...reached, ...BLOBS_MOVE });
    case "tidy":
      return tidied(state, outcome, seen);
    case "new-server":
      return newServer(reached, outcome, seen);
  }
}

function newServer(state: SyncState, { late }: Outcome & { of: "new-server" }, seen: Seen): SyncState {
  const begun = { ...moved(state), ...FROM_THE_START, to_refresh: state.doing?.step.do !== "refresh" };
  return late === undefined ? begun : bookLate(begun, late, seen);
}

function refreshed(state: SyncState, outcome: Outcome & { of: "refresh" }, seen: Seen): SyncState {
  const heard = moved({ ...state, ...clockOff(outcome, seen) });
  if (outcome.late !== undefined) return bookLate(heard, outcome.late, seen);
  const book = { refresh_after: null, refresh_failures: 0, refreshed_at: seen.now };
  return { ...heard, ...book, to_refresh: false };
}

/** A book that does not come through a weak link holds up neither what others wrote nor the photos. */
function bookLate(state: SyncState, problem: Failure, { now, dice }: Seen): SyncState {
  const refresh_after = now + delayAfter(state.refresh_failures, problem, dice);
  const refresh_failures = oneMore(state.refresh_failures);
  return { ...state, to_refresh: true, refresh_after, refresh_failures, problem };
}

function pulled(state: SyncState, { more }: Outcome & { of: "pull" }): SyncState {
  const page_limit = Math.min(PAGE_ENTRIES, state.page_limit * 2);
  return moved({ ...state, page_limit, to_pull: more, news_lost: false });
}

function clockOff({ server_ms }: Outcome & { of: "refresh" }, { now }: Seen): Partial<SyncState> {
  if (server_ms === undefined || !Number.isFinite(server_ms)) return {};
  const off = now - server_ms;
  return { clock_off_ms: Math.abs(off) > CLOCK_OFF_MS ? off : null };
}

function compared(state: SyncState, { card, agrees }: Outcome & { of: "compare" }): SyncState {
  const rest = without(state.unlike, card);
  const [out_of_step, recheck] = [state.out_of_step, state.recheck].map((cards) =>
    cards.filter((one) => one !== card),
  );
  const heard = moved({ ...state, unlike: rest, out_of_step: out_of_step ?? [], recheck: recheck ?? [] });
  if (agrees) return heard;
  if (isLastTry(state)) return { ...heard, out_of_step: [...heard.out_of_step, card] };
  return { ...heard, unlike: { ...rest, [card]: (state.unlike[card] ?? 0) + 1 }, to_pull: true };
}

function tidied(state: SyncState, { card }: Outcome & { of: "tidy" }, { now }: Seen): SyncState {
  if (card === null) return { ...state, tidied_at: now, tidied: [] };
  return { ...state, tidied: [...state.tidied, card] };
}

function isLastTry({ doing }: SyncState): boolean {
  return doing?.step.do === "compare" && doing.step.unlike === "give-up";
}

function without(counts: Record<string, number>, card: string): Record<string, number> {
  return Object.fromEntries(Object.entries(counts).filter(([name]) => name !== card));
}

function failed(state: SyncState, outcome: Outcome & { of: "failed" }, seen: Seen): SyncState {
  const { failure } = outcome;
  const contact = failure.is === "problem" ? { last_contact: seen.now } : {};
  const known = { ...state, ...contact, ...afterCut(state), ...lessNextTime(state, failure) };
  if (failure.is === "problem" && failure.status === 401) {
    return { ...known, sign_in_needed: true, problem: failure };
  }
  const { step } = state.doing ?? {};
  if (outcome.sent > 0) return pushFailed(known, outcome, seen);
  if (step?.do === "put-piece" || step?.do === "ask-offset") {
    const put = blobFailed(known, step.blob.sha256, failure, seen);
    return failure.is === "unreachable" ? later(put, failure, seen) : put;
  }
  return later(known, failure, seen);
}

/** Some bytes can no longer be read where everything else still can: such a photo must not hold up the others. */
function storeFailed(state: SyncState, { fault }: Outcome & { of: "store-failed" }, seen: Seen): SyncState {
  const { step } = state.doing ?? {};
  const problem = { is: "store", fault } as const;
  if (step?.do === "put-piece") return blobFailed(state, step.blob.sha256, problem, seen);
  return later(state, problem, seen);
}

/** A page that did not come through a weak link in time is asked for in smaller parts. */
function lessNextTime({ doing, page_limit }: SyncState, failure: Failure): Partial<SyncState> {
  if (doing?.step.do !== "pull" || failure.is !== "unreachable" || failure.why !== "time") return {};
  return { page_limit: Math.max(SMALLEST_PAGE_ENTRIES, Math.floor(page_limit / 2)) };
}
