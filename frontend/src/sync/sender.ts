/** Drives the planner: takes events one after another, carries out its actions, tells the screens. */
import { signal, type ReadonlySignal } from "@preact/signals";
import { StoreError } from "../store/errors";
import type { Queue } from "../store/types";
import type { Link } from "./link";
import { plan } from "./plan";
import { firstState, type Action, type Event, type SyncState } from "./state";
import { NOTHING_KNOWN, type SyncStatus } from "./status";
import { statusOf } from "./status-of";
import { perform, type Tools } from "./steps";

export type Timer = (run: () => void, ms: number) => () => void;
/** Everything outside that the sender needs; a test hands in its own. */
export type SenderOutside = Tools & {
  now: () => number;
  /** a number from 0 up to 1, for the jitter of the delays */
  dice: () => number;
  timer: Timer;
  /** the link as far as the browser tells */
  link: () => Link | null;
  listen: (after: number, arrived: () => void, lost: () => void) => () => void;
  /** runs out on a store that never answers; without one it is waited for */
  patience?: Timer;
};

const STORE_PAUSE_MS = 5_000;
/** Some browsers leave a database hanging that was open while the phone slept. */
const STORE_LIMIT_MS = 30_000;

export class Sender {
  readonly #status = signal<SyncStatus>(NOTHING_KNOWN);
  readonly #inbox: Event[] = [];
  #state: SyncState = firstState();
  #reading = false;
  #stopped = false;
  #stopTimer: (() => void) | null = null;
  #stopNews: (() => void) | null = null;
  /** counts the wishes for news, so that one that was taken back meanwhile comes to nothing */
  #asked_news = 0;

  constructor(private readonly outside: SenderOutside) {}

  get status(): ReadonlySignal<SyncStatus> {
    return this.#status;
  }

  /** Takes an event in; events are worked through one after another, each with a fresh look at the queue. */
  tell(event: Event): void {
    if (this.#stopped) return;
    this.#inbox.push(event);
    this.#wake();
  }

  /** From here on it hears nothing and does nothing, whatever is still on the wire. */
  stop(): void {
    this.#stopped = true;
    this.#stopTimer?.();
    this.#stopNews?.();
    this.#inbox.length = 0;
  }

  #wake(): void {
    if (!this.#reading) void this.#read();
  }

  async #read(): Promise<void> {
    this.#reading = true;
    try {
      for (let [event] = this.#inbox; event !== undefined; [event] = this.#inbox) {
        await this.#hear(event);
        this.#inbox.shift();
      }
    } catch (error) {
      this.#storeFailed(error);
    } finally {
      this.#reading = false;
    }
  }

  async #hear(event: Event): Promise<void> {
    const { now, dice, link } = this.outside;
    const queue = await this.#queue();
    if (this.#stopped) return;
    const seen = { now: now(), queue, dice: dice(), link: link() };
    const [state, actions] = plan(this.#state, event, seen);
    this.#state = state;
    this.#status.value = statusOf(state, seen);
    for (const action of actions) this.#act(action);
  }

  #act(action: Action): void {
    switch (action.do) {
      case "step":
        void this.#step(action);
        return;
      case "wait":
        this.#wait(action.until);
        return;
      case "listen":
        void this.#listen().catch(() => this.tell({ is: "news-lost" }));
        return;
      case "stop-listening":
        this.#asked_news += 1;
        this.#stopNews?.();
        this.#stopNews = null;
    }
  }

  async #step({ step, turn }: Action & { do: "step" }): Promise<void> {
    try {
      this.tell({ is: "outcome", turn, outcome: await perform(this.outside, step) });
    } catch (error) {
      const isOurs = error instanceof StoreError;
      const fault = isOurs ? error.fault : "lost";
      this.tell({ is: "outcome", turn, outcome: { of: "store-failed", fault } });
      if (!isOurs) throw error;
    }
  }

  #wait(until: number | null): void {
    this.#stopTimer?.();
    this.#stopTimer = null;
    if (until === null) return;
    const ms = Math.max(0, until - this.outside.now());
    this.#stopTimer = this.outside.timer(() => this.tell({ is: "woke", why: "timer" }), ms);
  }

  async #listen(): Promise<void> {
    const asked = ++this.#asked_news;
    const after = await this.outside.store.cursor();
    if (this.#stopped || asked !== this.#asked_news) return;
    this.#stopNews?.();
    this.#stopNews = this.outside.listen(
      after,
      () => this.tell({ is: "woke", why: "news" }),
      () => this.tell({ is: "news-lost" }),
    );
  }

  async #queue(): Promise<Queue> {
    const { store, patience } = this.outside;
    if (patience === undefined) return store.queue();
    let stop: () => void = () => undefined;
    const hangs = new Promise<never>((_, reject) => {
      stop = patience(() => {
        store.rest();
        store.wake();
        reject(new StoreError("lost", null));
      }, STORE_LIMIT_MS);
    });
    return Promise.race([store.queue(), hangs]).finally(stop);
  }

  /**
   * Without the queue nothing can be planned: show it. The event stays first in line; it is heard a little later.
   * One over which our own code stumbles is let go: it must not be stumbled over for ever.
   */
  #storeFailed(error: unknown): void {
    const isOurs = error instanceof StoreError;
    if (!isOurs) this.#inbox.shift();
    this.#status.value = {
      ...this.#status.value,
      problem: { is: "store", fault: isOurs ? error.fault : "lost" },
    };
    this.#stopTimer?.();
    this.#stopTimer = this.outside.timer(() => {
      if (this.#inbox.length === 0) this.tell({ is: "woke", why: "timer" });
      else this.#wake();
    }, STORE_PAUSE_MS);
    if (!isOurs) throw error;
  }
}
