/** One transaction that changes something: all of it or nothing, and the true reason when it fails. */
import type { IDBPTransaction, StoreNames } from "idb";
import type { Database, Tables } from "./schema";

type Change<N extends StoreNames<Tables>> = IDBPTransaction<Tables, N[], "readwrite">;

/** Runs `work` inside the transaction and resolves when it is complete; an exception in `work` undoes the whole. */
export async function change<N extends StoreNames<Tables>, T>(
  db: Database,
  names: N[],
  durability: IDBTransactionDurability,
  work: (tx: Change<N>) => Promise<T>,
): Promise<T> {
  const tx: Change<N> = db.transaction(names, "readwrite", { durability });
  tx.done.catch(() => undefined); // it is awaited below, unless `work` fails first
  try {
    const result = await work(tx);
    commit(tx);
    await tx.done;
    return result;
  } catch (error) {
    abort(tx);
    throw tx.error ?? error;
  }
}

/** Starts a write whose failure the transaction itself reports. */
export function write(request: Promise<unknown>): void {
  request.catch(() => undefined);
}

/** Says that nothing more will come: a page that is left at this moment need not be there for it to end. */
function commit(tx: { commit(): void }): void {
  try {
    tx.commit();
  } catch {
    // it had ended already, or failed: `done` tells
  }
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // it had ended already
  }
}
