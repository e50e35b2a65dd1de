/** What the sender remembers, what can happen to it, and what it may ask to be done. */
import type { Failure } from "../api/result";
import type { StoreFault } from "../store/errors";
import type { BlobLine, ChecklistName, Choice, Queue } from "../store/types";
import type { Link } from "./link";
import type { StuckEntry, SyncProblem } from "./status";

/** One thing at a time on the wire; its outcome comes back with the number of its turn. */
export type Step =
  | { do: "push"; limit: number; choice?: Choice }
  /** takes a waiting entry out of the way: the server cannot read it even alone */
  | { do: "set-aside"; failure: Failure; entry: string | null }
  | { do: "refresh" }
  | { do: "pull"; limit: number }
  | { do: "fetch-checklist"; name: ChecklistName }
  | { do: "ask-offset"; blob: BlobLine }
  | { do: "put-piece"; blob: BlobLine; from: number; piece_bytes: number }
  /** `unlike`: what to do when the digests differ */
  | { do: "compare"; card: string; unlike: "look-again" | "offer-again" | "pull-all" | "give-up" }
  /** frees the room of sent photos of one card that is signed off; `done`: cards looked at already */
  | { do: "tidy"; sent_before: number; done: string[] };

export type Action =
  | { do: "step"; step: Step; turn: number }
  /** the one timer, replacing the one before; null for none */
  | { do: "wait"; until: number | null }
  | { do: "listen" }
  | { do: "stop-listening" };

export type Outcome =
  | { of: "push"; sent: number; settled: number }
  | { of: "pull"; more: boolean }
  | { of: "asked"; sha256: string }
  | { of: "held"; sha256: string; bytes: number; moved: boolean; complete: boolean }
  | { of: "compare"; card: string; agrees: boolean }
  /** `server_ms`: the server's clock, ms since 1970; `late`: why a new book did not come through */
  | { of: "refresh"; server_ms?: number; late?: Failure }
  | { of: "set-aside" }
  | { of: "fetch-checklist" }
  /** the card that was looked at; null when there is none left */
  | { of: "tidy"; card: string | null }
  /** the server will never take this one; it is marked and out of the way */
  | { of: "blob-refused" }
  | { of: "new-server"; late?: Failure }
  /** this phone is too full for what the server sent */
  | { of: "no-room" }
  /** this phone's own database failed */
  | { of: "store-failed"; fault: StoreFault }
  /** `first`: the first of the entries that were sent */
  | { of: "failed"; failure: Failure; sent: number; first?: string };

export type Event =
  | { is: "started"; signed_in: boolean; visible: boolean }
  | { is: "woke"; why: "entry" | "timer" | "focus" | "online" | "link" | "asked" | "news" }
  /** a person lets the photos go that wait for a better link */
  | { is: "photos-let" }
  | { is: "hidden" }
  | { is: "news-lost" }
  | { is: "signed-in" }
  | { is: "signed-out" }
  | { is: "outcome"; turn: number; outcome: Outcome };

/** What the driver looked up for this very event. */
export type Seen = {
  now: number;
  queue: Queue;
  dice: number;
  /** null where the browser does not tell */
  link: Link | null;
};

export type SyncState = {
  signed_in: boolean;
  /** the server no longer knows who we are; what waits goes on waiting */
  sign_in_needed: boolean;
  visible: boolean;
  listening: boolean;
  /** the news broke off; they are asked for again with the next pull that works */
  news_lost: boolean;
  turn: number;
  doing: { step: Step; since: number } | null;
  to_pull: boolean;
  refreshed_at: number | null;
  to_refresh: boolean;
  /** a book that did not come through is asked for again then, and holds up nothing until then */
  refresh_after: number | null;
  refresh_failures: number;
  batch_limit: number;
  page_limit: number;
  /** nothing is fetched until something here was sent or a while has passed */
  no_room: boolean;
  piece_bytes: number;
  /** the blob whose held bytes the server itself has told in this run */
  sure_of: string | null;
  /** the blob whose last piece was cut, so that nobody knows how much arrived */
  cut: string | null;
  set_aside: { failure: Failure; entry: string | null } | null;
  /** when entries go again after the server failed over some, and how often one alone did since any were taken */
  push_after: number | null;
  push_failures: number;
  /** entries over which the server failed when each was alone, the last one last: they let all others go first */
  stuck_entries: StuckEntry[];
  /** when these are tried again, and how often that failed since one of them was taken */
  stuck_after: number | null;
  stuck_failures: number;
  /** pushes in a row that nobody answered, and whether anything else was answered since the last of them */
  unanswered: number;
  answered_else: boolean;
  /** photos and sounds that failed, the last one last: they let all others go first */
  stuck: string[];
  /** how often sending one failed since one last moved, and when it is tried again */
  blob_failures: number;
  blobs_after: number | null;
  /** photos go over any link until none waits */
  photos_let: boolean;
  failures: number;
  retry_at: number | null;
  tried_at: number;
  /** by card: how often its comparison failed since it last agreed */
  unlike: Record<string, number>;
  out_of_step: string[];
  /** those of them to be compared once more, as there may be news */
  recheck: string[];
  /** when old photos of cards that are signed off were last let go, and which cards were looked at since then */
  tidied_at: number | null;
  tidied: string[];
  last_contact: number | null;
  /** how far this phone's clock is ahead of the server's; null when they are near enough */
  clock_off_ms: number | null;
  problem: SyncProblem | null;
};

export const BATCH_ENTRIES = 500;
export const PAGE_ENTRIES = 1_000;
export const PIECE_BYTES = 512 * 1024;

export function firstState(): SyncState {
  return {
    signed_in: false,
    sign_in_needed: false,
    visible: false,
    listening: false,
    news_lost: false,
    turn: 0,
    doing: null,
    to_pull: false,
    refreshed_at: null,
    to_refresh: false,
    refresh_after: null,
    refresh_failures: 0,
    batch_limit: BATCH_ENTRIES,
    page_limit: PAGE_ENTRIES,
    no_room: false,
    piece_bytes: PIECE_BYTES,
    sure_of: null,
    cut: null,
    set_aside: null,
    push_after: null,
    push_failures: 0,
    stuck_entries: [],
    stuck_after: null,
    stuck_failures: 0,
    unanswered: 0,
    answered_else: false,
    stuck: [],
    blob_failures: 0,
    blobs_after: null,
    photos_let: false,
    failures: 0,
    retry_at: null,
    tried_at: 0,
    unlike: {},
    out_of_step: [],
    recheck: [],
    tidied_at: null,
    tidied: [],
    last_contact: null,
    clock_off_ms: null,
    problem: null,
  };
}
