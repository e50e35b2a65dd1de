/** One phone of the fleet: the app's own store and sender, with wire, clock and disk in the simulator's hands. */
import { makeApi } from "../../src/api/api";
import type { Wire } from "../../src/api/wire";
import type { Entry } from "../../src/journal/types";
import { disagreements, standing } from "../../src/journal/standing";
import { StoreError } from "../../src/store/errors";
import { openStore } from "../../src/store/open";
import type { BlobLine, OutboxLine, SyncStore } from "../../src/store/types";
import { Sender, type SenderOutside } from "../../src/sync/sender";
import type { Event } from "../../src/sync/state";
import { Disk } from "./disk";
import type { Bug } from "./bugs";

type Answer = { status: number; headers: Record<string, string>; body: string | null };
type Call = { resolve: (response: Response) => void; reject: (error: Error) => void; init: RequestInit };
export type Request = {
  call: number;
  method: string;
  path: string;
  headers: unknown;
  body: string;
  limit_ms: number;
};
export type Blob = { sha256: string; mime: string; bytes: string };

const limits = new WeakMap<AbortSignal, { ms: number; abort: () => void }>();
const NO_BODY = [204, 304];

/** Time limits belong to the simulator: they run out when it says so. */
export function takeOverTimeLimits(): void {
  AbortSignal.timeout = (ms) => {
    const controller = new AbortController();
    limits.set(controller.signal, { ms, abort: () => controller.abort() });
    return controller.signal;
  };
}

export class Phone {
  readonly requests: Request[] = [];
  readonly kept: Entry[] = [];
  readonly failed: string[] = [];
  timer: { number: number; ms: number; run: () => void } | null = null;
  news: { arrived: () => void; lost: () => void } | null = null;
  disk: Disk;
  #life = 0;
  #calls = new Map<number, Call>();
  #last_call = 0;
  #last_timer = 0;
  #dice: number;
  #store: SyncStore;
  #sender: Sender | null = null;

  constructor(
    readonly name: string,
    seed: number,
    private readonly clock: { now: number },
    private readonly bug: Bug,
  ) {
    this.#dice = seed;
    this.disk = new Disk(`${name}-0`);
    this.#store = this.#open();
  }

  /** The app starts. */
  start(visible: boolean): void {
    const sender = new Sender(this.bug(this.#outside()));
    this.#sender = sender;
    this.#store.watchWaiting(() => sender.tell({ is: "woke", why: "entry" }));
    sender.tell({ is: "started", signed_in: true, visible });
  }

  /** The app is killed; `luck` says how much of what was not forced to the disk is there afterwards. */
  async dies(luck: number): Promise<void> {
    this.#sender?.stop();
    this.#sender = null;
    this.#store.close();
    this.timer = null;
    this.news = null;
    this.#calls.clear();
    this.#life += 1;
    this.disk = await this.disk.afterPowerCut(`${this.name}-${this.#life}`, luck);
    this.#store = this.#open();
  }

  /** Keeps entries as a tap does; those that replace nothing yet replace what this phone sees standing. */
  async keep(entries: Entry[], blob: Blob | null): Promise<void> {
    const disk = this.disk;
    try {
      const whole: Entry[] = [];
      for (const entry of entries) whole.push({ ...entry, replaces: await this.#seen(entry) });
      const [first] = whole;
      if (blob === null || first === undefined) await this.#store.append(whole);
      else await this.#store.appendWithBlob(first, { ...blob, bytes: bytesOf(blob.bytes) });
      if (!disk.dead) this.kept.push(...whole);
    } catch (error) {
      if (disk.dead) return;
      if (!(error instanceof StoreError)) throw error;
      this.failed.push(error.fault);
    }
  }

  tell(event: Event): void {
    this.#sender?.tell(event);
  }

  ring(): void {
    const { timer } = this;
    this.timer = null;
    timer?.run();
  }

  answer(number: number, { status, headers, body }: Answer): void {
    const bytes = body === null || NO_BODY.includes(status) ? null : bytesOf(body);
    this.#take(number)?.resolve(new Response(bytes, { status, headers }));
  }

  breakOff(number: number, why: "network" | "time"): void {
    const call = this.#take(number);
    if (why === "time" && call?.init.signal) limits.get(call.init.signal)?.abort();
    call?.reject(new TypeError("the wire was cut"));
  }

  async offerRefused(): Promise<void> {
    await this.#store.offerRefused();
  }

  /** Somebody of another workshop signs in, as `sign-in.ts` does it. */
  async changeWorkshop(): Promise<void> {
    this.tell({ is: "signed-out" });
    await this.#store.leaveWorkshop();
    await this.#store.offerRefused();
    this.tell({ is: "signed-in" });
  }

  /** What is sent, as the screens show it: kept here, and neither waiting nor refused. */
  shown(): { sent: string[]; sent_blobs: string[]; waiting: number; phase: string } {
    const open = new Set(this.disk.rows("outbox").map((line) => (line as OutboxLine).id));
    const ids = this.disk.rows("made").map((entry) => (entry as Entry).id);
    const blobs = this.disk.rows("blob_lines") as BlobLine[];
    return {
      sent: ids.filter((id) => !open.has(id)),
      sent_blobs: blobs.filter((line) => line.state === "sent").map((line) => line.sha256),
      waiting: open.size + blobs.filter((line) => line.state !== "sent").length,
      phase: this.#sender?.status.peek().phase ?? "off",
    };
  }

  async look(): Promise<unknown> {
    const entries: Entry[] = [];
    for (const card of await this.#store.cards()) entries.push(...(await this.#store.entriesOf(card)));
    const cards = [...new Set(entries.map((entry) => entry.card))];
    const stand = cards.map((card) => standing(entries.filter((entry) => entry.card === card)));
    const { queue, waiting } = { queue: await this.#store.queue(), waiting: await this.#store.waiting() };
    return {
      entries,
      standing: stand.flatMap((one) => [...one.values()].flat().map((entry) => entry.id)),
      disagreements: stand.flatMap((one, place) => disagreements(one).map((slot) => [cards[place], slot])),
      queue,
      waiting,
      bytes_here: this.disk.keys("blobs"),
      status: this.#sender?.status.peek() ?? null,
    };
  }

  async #seen(entry: Entry): Promise<string[]> {
    const entries = await this.#store.entriesOf(entry.card);
    return (standing(entries).get(entry.slot) ?? []).map((one) => one.id);
  }

  #open(): SyncStore {
    return openStore({
      now: () => this.clock.now,
      pause: () => Promise.resolve(),
      channel: null,
      name: this.disk.name,
    });
  }

  #outside(): SenderOutside {
    const life = this.#life;
    return {
      store: this.#store,
      api: makeApi((url, init) => this.#call(life, url, init)),
      now: () => this.clock.now,
      dice: () => this.#roll(),
      timer: (run, ms) => this.#wait(life, run, ms),
      link: () => null,
      listen: (_after, arrived, lost) => {
        this.news = { arrived, lost };
        return () => (this.news = null);
      },
    };
  }

  #wait(life: number, run: () => void, ms: number): () => void {
    this.#last_timer += 1;
    const timer = { number: this.#last_timer, ms, run };
    if (life === this.#life) this.timer = timer;
    return () => {
      if (this.timer === timer) this.timer = null;
    };
  }

  #call(life: number, path: string, init: Parameters<Wire>[1]): Promise<Response> {
    if (life !== this.#life || this.disk.dead) return new Promise(() => undefined);
    this.#last_call += 1;
    const number = this.#last_call;
    this.requests.push({
      call: number,
      method: init.method ?? "GET",
      path,
      headers: init.headers,
      body: textOf(init.body),
      limit_ms: (init.signal ? limits.get(init.signal)?.ms : undefined) ?? 0,
    });
    return new Promise((resolve, reject) => this.#calls.set(number, { resolve, reject, init }));
  }

  #take(number: number): Call | undefined {
    const call = this.#calls.get(number);
    this.#calls.delete(number);
    return call;
  }

  /** A small generator, so that a seed replays. */
  #roll(): number {
    this.#dice = (Math.imul(this.#dice, 1_664_525) + 1_013_904_223) >>> 0;
    return this.#dice / 2 ** 32;
  }
}

function bytesOf(base64: string): ArrayBuffer {
  return new Uint8Array(Buffer.from(base64, "base64")).buffer;
}

function textOf(body: BodyInit | null | undefined): string {
  if (body instanceof ArrayBuffer) return Buffer.from(body).toString("base64");
  return body instanceof Uint8Array ? Buffer.from(body).toString("base64") : "";
}
