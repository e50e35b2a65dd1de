/** A conversation with the planner: say what happens, read what it wants to do, with a clock that is moved by hand. */
import type { Failure } from "../../src/api/result";
import type { Link } from "../../src/sync/link";
import { plan } from "../../src/sync/plan";
import { firstState, type Event, type Outcome, type Step, type SyncState } from "../../src/sync/state";
import type { BlobLine, Queue } from "../../src/store/types";

export const NOTHING: Queue = {
  entries: 0,
  entry_ids: [],
  blobs: 0,
  refused: 0,
  oldest: null,
  blob: null,
  later_blobs: [],
  compare: [],
  wanted: [],
  photos: "always",
  sent: 0,
};
export const SILENCE: Failure = { is: "unreachable", why: "network" };

export function problem(status: number, retry_after_s: number | null = null): Failure {
  return { is: "problem", status, code: `code-${status}`, title: "", do: "", retry_after_s, details: {} };
}

export function aBlob(change: Partial<BlobLine> = {}): BlobLine {
  const line = {
    sha256: "ab",
    card: "c",
    mime: "image/jpeg",
    bytes: 300_000,
    kept_at: 1,
    held: 0,
    reason: null,
  };
  return { ...line, state: "waiting", ...change };
}

export class Talk {
  state: SyncState = firstState();
  now = 1_000_000;
  dice = 1;
  queue: Queue = NOTHING;
  link: Link | null = null;
  step: Step | null = null;
  until: number | null = null;
  listening = false;

  /** Tells the planner; what it wants to do is then in `step`, `until` and `listening`. */
  hear(event: Event): this {
    const { now, queue, dice, link } = this;
    const [state, actions] = plan(this.state, event, { now, queue, dice, link });
    this.state = state;
    this.step = null;
    for (const action of actions) {
      if (action.do === "step") this.step = action.step;
      if (action.do === "wait") this.until = action.until;
      if (action.do === "listen") this.listening = true;
      if (action.do === "stop-listening") this.listening = false;
    }
    return this;
  }

  start(queue: Partial<Queue> = {}): this {
    this.queue = { ...NOTHING, ...queue };
    return this.hear({ is: "started", signed_in: true, visible: true });
  }

  /** The outcome of the present step, and what is in the queue after it. */
  comesBack(outcome: Outcome, queue: Partial<Queue> = {}): this {
    this.queue = { ...NOTHING, ...queue };
    return this.hear({ is: "outcome", turn: this.state.turn, outcome });
  }

  fails(failure: Failure = SILENCE, sent = 0): this {
    return this.hear({ is: "outcome", turn: this.state.turn, outcome: { of: "failed", failure, sent } });
  }

  /** A push of these entries fails. */
  failsOver(failure: Failure, sent: string[]): this {
    const first = sent[0] ?? "";
    const outcome: Outcome = { of: "failed", failure, sent: sent.length, first };
    return this.hear({ is: "outcome", turn: this.state.turn, outcome });
  }

  /** Lets time pass until the timer rings. */
  rings(): this {
    this.now = this.until ?? this.now;
    return this.hear({ is: "woke", why: "timer" });
  }

  /** Answers every step of a round with plain success until the planner rests. */
  allGoesWell(): this {
    for (let steps = 0; this.step !== null; steps += 1) {
      if (steps > 100) throw new Error("the planner does not come to rest");
      this.comesBack(success(this.step));
    }
    return this;
  }
}

export function success(step: Step): Outcome {
  switch (step.do) {
    case "push":
      return { of: "push", sent: 1, settled: 1 };
    case "pull":
      return { of: "pull", more: false };
    case "ask-offset":
      return { of: "asked", sha256: step.blob.sha256 };
    case "put-piece":
      return { of: "held", sha256: step.blob.sha256, bytes: step.blob.bytes, moved: true, complete: true };
    case "compare":
      return { of: "compare", card: step.card, agrees: true };
    case "tidy":
      return { of: "tidy", card: null };
    default:
      return { of: step.do };
  }
}
