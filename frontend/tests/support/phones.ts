/** A phone for tests: a real store and a real sender, a wire to a server, and a clock that is moved by hand. */
import { expect, vi } from "vitest";
import { makeApi } from "../../src/api/api";
import type { Link } from "../../src/sync/link";
import { Sender } from "../../src/sync/sender";
import { aName, aStore } from "./stores";
import type { FakeServer } from "./server";

export class Phone {
  now = 1_000_000;
  link: Link | null = null;
  language = "en";
  readonly name = aName();
  store = aStore(this.name, () => this.now);
  sender: Sender;
  #timer: { run: () => void; at: number } | null = null;

  constructor(private readonly server: FakeServer) {
    this.sender = this.#newSender();
  }

  start(): this {
    this.store.watchWaiting(() => this.sender.tell({ is: "woke", why: "entry" }));
    this.sender.tell({ is: "started", signed_in: true, visible: true });
    return this;
  }

  /** The app is killed: only what the database holds is left, and it is started again. */
  killed(): this {
    this.sender.stop();
    this.#timer = null;
    this.store.close();
    this.store = aStore(this.name, () => this.now);
    this.sender = this.#newSender();
    return this.start();
  }

  /** Lets time pass until nothing is on the wire and nothing waits; fails when that does not come about. */
  async settles(): Promise<void> {
    await vi.waitFor(async () => {
      const { entries, blobs, compare } = await this.store.queue();
      const rests = entries + blobs + compare.length === 0 && this.sender.status.peek().phase === "idle";
      if (!rests) this.ring();
      expect({ rests, requests: this.server.requests.slice(-5) }).toMatchObject({ rests: true });
    }, WAITING);
  }

  async shows(phase: string): Promise<void> {
    await vi.waitFor(() => expect(this.sender.status.peek().phase).toBe(phase), WAITING);
  }

  /** Moves the clock to the timer, unless a step is under way. */
  ring(): void {
    if (this.#timer === null || this.sender.status.peek().phase === "sending") return;
    this.now = Math.max(this.now, this.#timer.at);
    const { run } = this.#timer;
    this.#timer = null;
    run();
  }

  #newSender(): Sender {
    return new Sender({
      store: this.store,
      api: makeApi(this.server.wire, () => this.language),
      now: () => this.now,
      dice: () => 0.5,
      timer: (run, ms) => {
        this.#timer = { run, at: this.now + ms };
        return () => (this.#timer = null);
      },
      link: () => this.link,
      listen: () => () => undefined,
    });
  }
}

const WAITING = { timeout: 4_000, interval: 2 };
