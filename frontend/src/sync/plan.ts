/** Decides what the sender does next. Pure: it never waits, fetches, or looks at a clock. */
import { whyPhotosWait, type PhotosWait } from "./link";
import type { BlobLine, Queue } from "../store/types";
import { isOver } from "./delay";
import { take } from "./outcome";
import { pushDue, pushStep, stillStuck } from "./push-turn";
import { PIECE_BYTES, type Action, type Event, type Seen, type Step, type SyncState } from "./state";

/** Longer than any call's own time limit: a step older than this has lost its way. */
export const STEP_LIMIT_MS = 90_000;
export const LOOK_EVERY_MS = 60_000;
const REFRESH_EVERY_MS = 300_000;
const DAY_MS = 86_400_000;
/** A server put back from a backup of this week gets the photos again that it had lost. */
const KEEP_SENT_MS = 7 * DAY_MS;
const BOOK_NOW = { refresh_after: null, refresh_failures: 0 };
const ENTRIES_NOW = { push_after: null, push_failures: 0, stuck_after: null, stuck_failures: 0 };
/** Taps in quick succession while the server is away shall not each become a request. */
const ENTRY_PAUSE_MS = 2_000;

/** The state after `event` and the actions to carry out, in this order. */
export function plan(state: SyncState, event: Event, seen: Seen): [SyncState, Action[]] {
  const heard = stillStuck(tired(hear(state, event, seen), seen), seen);
  const [working, step] = begin(watch(heard, seen), seen);
  const [listening, news] = listen(working);
  return [listening, [...step, ...news, { do: "wait", until: nextLook(listening, seen) }]];
}

function hear(state: SyncState, event: Event, seen: Seen): SyncState {
  switch (event.is) {
    case "started":
      return fresh({ ...state, signed_in: event.signed_in, visible: event.visible, to_refresh: true });
    case "woke":
      return wake(state, event.why, seen);
    case "hidden":
      return { ...state, visible: false };
    case "photos-let":
      return { ...fresh(state), photos_let: true };
    case "news-lost":
      return { ...state, listening: false, news_lost: true };
    case "signed-in":
      return fresh({ ...state, signed_in: true, sign_in_needed: false, to_refresh: true });
    case "signed-out":
      // Whatever is under way comes back with an old turn and counts no more.
      return {
        ...state,
        signed_in: false,
        sign_in_needed: false,
        doing: null,
        turn: state.turn + 1,
        problem: null,
      };
    case "outcome":
      return event.turn === state.turn ? { ...take(state, event.outcome, seen), doing: null } : state;
  }
}

/** Why the photos that wait are not sent now, or null when they may go or there is none. */
export function photosWait(
  { photos_let }: SyncState,
  { queue, link }: Pick<Seen, "queue" | "link">,
): PhotosWait | null {
  return photos_let || queue.blobs === 0 ? null : whyPhotosWait(queue.photos, link);
}

/** The word to let photos go holds for those that wait, and is used up with the last of them. */
function tired(state: SyncState, { queue }: Seen): SyncState {
  return state.photos_let && queue.blobs === 0 ? { ...state, photos_let: false } : state;
}

/** A new round without any grudge from the last one; which entries let others go first is not forgotten. */
function fresh(state: SyncState): SyncState {
  const blobs = { piece_bytes: PIECE_BYTES, stuck: [], blob_failures: 0, blobs_after: null };
  return {
    ...pullNext(state),
    ...blobs,
    ...ENTRIES_NOW,
    ...BOOK_NOW,
    failures: 0,
    retry_at: null,
    unlike: {},
  };
}

function pullNext(state: SyncState): SyncState {
  return { ...state, to_pull: true, no_room: false, recheck: state.out_of_step };
}

function wake(state: SyncState, why: (Event & { is: "woke" })["why"], { now }: Seen): SyncState {
  switch (why) {
    case "entry":
      return now - state.tried_at >= ENTRY_PAUSE_MS ? { ...state, retry_at: null } : state;
    case "timer":
      return isDue(state, now) ? pullNext({ ...state, retry_at: null }) : state;
    case "news":
      return pullNext(state);
    case "link":
      return state;
    case "online":
      return fresh(state);
    case "focus":
      return { ...fresh(state), visible: true, to_refresh: isStale(state, now) };
    case "asked":
      return { ...fresh(state), to_refresh: true };
  }
}

function isDue({ retry_at }: SyncState, now: number): boolean {
  return isOver(retry_at, now);
}

function isStale({ refreshed_at, to_refresh }: SyncState, now: number): boolean {
  return to_refresh || refreshed_at === null || Math.abs(now - refreshed_at) > REFRESH_EVERY_MS;
}

/** Gives up a step that never came back: a queue must not stay wedged behind a promise that died. */
function watch(state: SyncState, { now }: Seen): SyncState {
  if (state.doing === null || Math.abs(now - state.doing.since) < STEP_LIMIT_MS) return state;
  return { ...state, doing: null, turn: state.turn + 1, sure_of: null };
}

function begin(state: SyncState, seen: Seen): [SyncState, Action[]] {
  if (state.doing !== null || !state.signed_in || state.sign_in_needed) return [state, []];
  if (!isDue(state, seen.now)) return [state, []];
  const step = nextStep(state, seen);
  if (step === null) return [state, []];
  const turn = state.turn + 1;
  const begun = { ...state, turn, doing: { step, since: seen.now }, retry_at: null, tried_at: seen.now };
  return [begun, [{ do: "step", step, turn }]];
}

/** Readings first, then what others wrote, then photos; comparing and tidying come last. */
function nextStep(state: SyncState, seen: Seen): Step | null {
  const { queue, now } = seen;
  const push = pushStep(state, seen);
  if (push !== null) return push;
  const fetching = state.no_room ? null : fetchStep(state, seen);
  if (fetching !== null) return fetching;
  const blob = blobInTurn(state, queue);
  const mayGo = isOver(state.blobs_after, now) && photosWait(state, seen) === null;
  if (blob !== null && mayGo) return blobStep(state, blob);
  return compareStep(state, queue.compare) ?? tidyStep(state, seen);
}

function fetchStep(state: SyncState, { queue, now }: Seen): Step | null {
  if (state.to_refresh && isOver(state.refresh_after, now)) return { do: "refresh" };
  if (state.to_pull) return { do: "pull", limit: state.page_limit };
  const [name] = queue.wanted;
  return name === undefined ? null : { do: "fetch-checklist", name };
}

/** The photo or sound whose turn it is: the oldest that has not failed, else the one whose failure is longest ago. */
export function blobInTurn({ stuck }: SyncState, { blob, later_blobs }: Queue): BlobLine | null {
  const lines = blob === null ? [] : [blob, ...later_blobs];
  const fresh = lines.find((line) => !stuck.includes(line.sha256));
  if (fresh !== undefined) return fresh;
  const oldest = stuck.find((name) => lines.some((line) => line.sha256 === name));
  return lines.find((line) => line.sha256 === oldest) ?? null;
}

/** Once a day, when there is nothing else to do. */
function tidyStep({ tidied_at, tidied }: SyncState, { now, queue }: Seen): Step | null {
  if (queue.sent === 0) return null;
  if (tidied_at !== null && Math.abs(now - tidied_at) < DAY_MS) return null;
  return { do: "tidy", sent_before: now - KEEP_SENT_MS, done: tidied };
}

/** A card that is out of step stays on the list; it is looked at once more whenever there may be news. */
function compareStep({ unlike, out_of_step, recheck }: SyncState, cards: string[]): Step | null {
  const card = cards.find((one) => !out_of_step.includes(one));
  if (card !== undefined) return { do: "compare", card, unlike: unlikeStep(unlike[card] ?? 0) };
  const [again] = recheck;
  return again === undefined ? null : { do: "compare", card: again, unlike: "give-up" };
}

function blobStep(state: SyncState, blob: BlobLine): Step {
  const unsure = state.sure_of !== blob.sha256 && (blob.held > 0 || state.cut === blob.sha256);
  if (unsure) return { do: "ask-offset", blob };
  return { do: "put-piece", blob, from: blob.held, piece_bytes: state.piece_bytes };
}

/** Others may have written between pull and digest, so the first difference means only: look again. */
function unlikeStep(times: number): (Step & { do: "compare" })["unlike"] {
  return (["look-again", "offer-again", "pull-all"] as const)[times] ?? "give-up";
}

/** Live news only for eyes that are there, and only once the server has answered. */
function listen(state: SyncState): [SyncState, Action[]] {
  const wish = state.visible && state.signed_in && !state.sign_in_needed && state.failures === 0;
  if (wish === state.listening) return [state, []];
  if (wish && (state.news_lost || state.last_contact === null)) return [state, []];
  return [{ ...state, listening: wish }, [{ do: wish ? "listen" : "stop-listening" }]];
}

/** When to look up again by ourselves; never when all is sent and nobody is looking. */
function nextLook(state: SyncState, seen: Seen): number | null {
  const { now, queue } = seen;
  if (state.doing !== null) return state.doing.since + STEP_LIMIT_MS;
  if (!state.signed_in || state.sign_in_needed) return null;
  const waiting = queue.entries > 0 || (queue.blobs > 0 && photosWait(state, seen) === null);
  if (!state.visible && !waiting) return null;
  if (state.retry_at !== null) return state.retry_at;
  const due = [
    pushDue(state, queue),
    queue.blobs > 0 ? state.blobs_after : null,
    state.to_refresh ? state.refresh_after : null,
  ];
  const ahead = due.filter((moment) => moment !== null && !isOver(moment, now));
  return ahead.reduce<number>((first, moment) => Math.min(first, moment ?? first), now + LOOK_EVERY_MS);
}
