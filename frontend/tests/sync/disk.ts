/** What a phone's disk holds: follows every transaction, knows which are safe, and lets the store fail where a test wants it. */
import { IDBDatabase, IDBFactory, IDBObjectStore } from "fake-indexeddb";
import { openDB } from "idb";
import { upgrade, upgrades, type Database } from "../../src/store/schema";

type Write = { table: string; key: IDBValidKey; value: unknown; gone: boolean };
type Tables = Map<string, Map<string, Write>>;

/** How many transactions and openings are under way on all disks. */
export const busy = { count: 0 };
const disks = new Map<string, Disk>();

export class Disk {
  /** after so many more writes and commits the phone dies in the middle */
  fuse: number | null = null;
  dead = false;
  full = false;
  /** the next so many transactions find their handle closed */
  closed_handles = 0;
  #safe: Tables = new Map();
  #now: Tables = new Map();
  #unsafe: Write[][] = [];

  constructor(readonly name: string) {
    disks.set(name, this);
  }

  /** All values of a table as the last finished transaction left it. */
  rows(table: string): unknown[] {
    return [...(this.#now.get(table)?.values() ?? [])].map((write) => write.value);
  }

  keys(table: string): unknown[] {
    return [...(this.#now.get(table)?.values() ?? [])].map((write) => write.key);
  }

  /** The disk after a power cut; `luck` from 0 up to 1 says how much of what was not forced to the disk is there. */
  async afterPowerCut(name: string, luck: number): Promise<Disk> {
    const left = this.#unsafe.slice(0, Math.floor(luck * (this.#unsafe.length + 1)));
    for (const writes of left) apply(this.#safe, writes);
    const disk = new Disk(name);
    const db = await openDB(name, upgrades.length, {
      upgrade: (opened, from) => upgrade(opened as unknown as Database, from),
    });
    const tables = [...db.objectStoreNames];
    const tx = db.transaction(tables, "readwrite", { durability: "strict" });
    for (const write of [...this.#safe.values()].flatMap((table) => [...table.values()])) {
      const table = tx.objectStore(write.table);
      void (table.keyPath === null ? table.put(write.value, write.key) : table.put(write.value));
    }
    await tx.done;
    db.close();
    disks.delete(this.name);
    return disk;
  }

  burn(): boolean {
    if (this.fuse === null || this.dead) return false;
    this.fuse -= 1;
    this.dead = this.fuse < 0;
    return this.dead;
  }

  commit(writes: Write[], strict: boolean): void {
    if (this.dead || writes.length === 0) return;
    apply(this.#now, writes);
    this.#unsafe.push(writes);
    if (!strict) return;
    for (const safe of this.#unsafe) apply(this.#safe, safe);
    this.#unsafe = [];
  }
}

function apply(tables: Tables, writes: Write[]): void {
  for (const write of writes) {
    const table = tables.get(write.table) ?? new Map<string, Write>();
    tables.set(write.table, table);
    if (write.gone) table.delete(JSON.stringify(write.key));
    else table.set(JSON.stringify(write.key), write);
  }
}

/** A new machine: nothing on any disk. */
export function clearDisks(): void {
  disks.clear();
  globalThis.indexedDB = new IDBFactory();
}

const running = new WeakMap<IDBTransaction, Write[]>();

/** Puts the disks under the database of this process; to be called once. */
export function watchDisks(): void {
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args: Parameters<typeof transaction>) {
    const disk = disks.get(this.name);
    if (disk !== undefined && disk.closed_handles > 0) {
      disk.closed_handles -= 1;
      throw new DOMException("the handle is closed", "InvalidStateError");
    }
    const tx = transaction.apply(this, args);
    if (disk !== undefined) follow(tx, disk, args[2]?.durability === "strict");
    return tx;
  };
  watchWrites();
  watchOpening();
}

function follow(tx: IDBTransaction, disk: Disk, strict: boolean): void {
  const writes: Write[] = [];
  running.set(tx, writes);
  busy.count += 1;
  tx.addEventListener("complete", () => {
    busy.count -= 1;
    disk.commit(writes, strict);
    if (writes.length > 0) disk.burn();
  });
  tx.addEventListener("abort", () => (busy.count -= 1));
}

function watchWrites(): void {
  const { put, delete: remove } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    note(this, { table: this.name, key: key ?? keyIn(this, value), value, gone: false });
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  };
  IDBObjectStore.prototype.delete = function (this: IDBObjectStore, key: IDBValidKey) {
    note(this, { table: this.name, key, value: null, gone: true });
    return remove.call(this, key);
  };
}

function note(table: IDBObjectStore, write: Write): void {
  const disk = disks.get(table.transaction.db.name);
  if (disk === undefined) return;
  if (disk.full && !write.gone) throw new DOMException("no room", "QuotaExceededError");
  if (disk.burn()) table.transaction.abort();
  running.get(table.transaction)?.push(write);
}

function keyIn(table: IDBObjectStore, value: unknown): IDBValidKey {
  const fields = value as Record<string, IDBValidKey>;
  const path = table.keyPath ?? [];
  return typeof path === "string" ? (fields[path] ?? "") : path.map((name) => fields[name] ?? "");
}

function watchOpening(): void {
  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (this: IDBFactory, ...args: Parameters<typeof open>) {
    const request = open.apply(this, args);
    busy.count += 1;
    for (const end of ["success", "error"]) request.addEventListener(end, () => (busy.count -= 1));
    return request;
  };
}
