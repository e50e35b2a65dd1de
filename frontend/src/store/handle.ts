/** A database handle that survives: phones close it behind our back, and then it must be opened anew. */
import { openDB } from "idb";
import { StoreError, faultOf } from "./errors";
import { NAME, type Database, type Tables, upgrade, upgrades } from "./schema";

const PAUSES_MS = [0, 50, 200, 800];
const BLOCKED_MS = 5_000;

export type Pause = (ms: number) => Promise<void>;

type Rest = { over: Promise<void>; end: () => void };

function makeRest(): Rest {
  let end: () => void = () => undefined;
  const over = new Promise<void>((resolve) => (end = resolve));
  return { over, end };
}

export class Handle {
  #opened: Promise<Database> | null = null;
  #rest: Rest | null = null;

  constructor(
    private readonly pause: Pause,
    private readonly name: string = NAME,
  ) {}

  /**
   * Runs one transaction's worth of work and runs it again on a fresh handle when the old one was dead.
   * `work` must therefore be safe to repeat. Raises StoreError.
   */
  async use<T>(work: (db: Database) => Promise<T>): Promise<T> {
    if (this.#rest !== null) await this.#rest.over;
    let last: unknown = null;
    for (const ms of PAUSES_MS) {
      if (ms > 0) await this.pause(ms);
      try {
        return await work(await this.#database());
      } catch (error) {
        if (error instanceof StoreError) throw error;
        const fault = faultOf(error);
        if (fault === null) throw error;
        if (fault !== "lost") throw new StoreError(fault, error);
        this.drop();
        last = error;
      }
    }
    throw new StoreError("lost", last);
  }

  /**
   * The page is left: what is asked of the store from now on waits until `wake`. Some browsers keep a page that was left in
   * memory; a transaction begun in it would never end there, and hold up those of every later page.
   */
  rest(): void {
    if (this.#rest !== null) return;
    this.#rest = makeRest();
    this.drop();
  }

  /** The page has come back. */
  wake(): void {
    this.#rest?.end();
    this.#rest = null;
  }

  /** Lets the present handle go; the next use opens another. */
  drop(): void {
    const opened = this.#opened;
    this.#opened = null;
    void opened?.then(
      (db) => db.close(),
      () => undefined,
    );
  }

  #database(): Promise<Database> {
    this.#opened ??= this.#open().catch((error: unknown) => {
      this.#opened = null;
      throw error;
    });
    return this.#opened;
  }

  #open(): Promise<Database> {
    return new Promise((resolve, reject) => {
      let isLate = false;
      openDB<Tables>(this.name, upgrades.length, {
        upgrade: (db, oldVersion) => upgrade(db, oldVersion),
        blocked: () => {
          // An old window may close by itself on our version change; after that it needs a person.
          void this.pause(BLOCKED_MS).then(() => {
            isLate = true;
            reject(new StoreError("blocked", null));
          });
        },
        // A newer version wants in: an old window that holds on would leave it blank for ever.
        blocking: () => this.drop(),
        terminated: () => this.drop(),
        // Nobody waits for one that opens late: left open it would block the next version.
      }).then((db) => (isLate ? db.close() : resolve(db)), reject);
    });
  }
}
