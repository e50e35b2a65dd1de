/** What gives way when the phone is full: photos the server holds, then the reserve, and never what waits. */
import type { Context } from "./entries";
import { StoreError } from "./errors";
import { dropSentBlobs } from "./outbox";
import { giveUp, setAside } from "./reserve";

/** Keeps a photo or sound while the reserve for readings is whole; what the server holds makes room for it. */
export async function keepLarge(context: Context, keep: () => Promise<void>): Promise<void> {
  const keepIt = async () => {
    await setAside(context);
    await keep();
  };
  if (await fits(keepIt)) return;
  if ((await dropSentBlobs(context, Infinity)) === 0) throw new StoreError("full", null);
  await keepIt();
}

/** Keeps something small: what the server holds makes room for it, then the reserve. */
export async function keepSmall(context: Context, keep: () => Promise<void>): Promise<void> {
  if (await fits(keep)) return;
  if ((await dropSentBlobs(context, Infinity)) > 0 && (await fits(keep))) return;
  await giveUp(context);
  await keep();
}

/** Keeps what can be fetched again: what the server holds makes room for it, and never the reserve for readings. */
export async function keepFetched(context: Context, keep: () => Promise<void>): Promise<void> {
  if (await fits(keep)) return;
  if ((await dropSentBlobs(context, Infinity)) === 0) throw new StoreError("full", null);
  await keep();
}

async function fits(keep: () => Promise<void>): Promise<boolean> {
  try {
    await keep();
    return true;
  } catch (error) {
    if (error instanceof StoreError && error.fault === "full") return false;
    throw error;
  }
}
