/** Asks the browser not to throw the store away, and looks how much room there is. */

/** `persisted`: the browser has promised to keep it. Bytes are the browser's estimate, null where it gives none. */
export type Room = { persisted: boolean; used_bytes: number | null; free_bytes: number | null };

export type Manager = Partial<Pick<StorageManager, "persist" | "persisted" | "estimate">>;

/** A long walk with its arrival photos and rechecks, as photos are made small here. */
export const WALK_PHOTOS = 150;
export const PHOTO_BYTES = 300_000;
/** Half as much again: the browser's own log grows before it is cleaned, and readings want room, too. */
const WALK_BYTES = WALK_PHOTOS * PHOTO_BYTES * 1.5;

/** Asks once more only when it is not granted yet; browsers grant it silently to apps that are installed or much used. */
export async function askForRoom(storage: Manager | undefined): Promise<Room> {
  const persisted = (await storage?.persisted?.()) === true || (await storage?.persist?.()) === true;
  return { ...(await lookAtRoom(storage)), persisted };
}

/** The same without asking for anything. */
export async function lookAtRoom(storage: Manager | undefined): Promise<Room> {
  const persisted = (await storage?.persisted?.()) === true;
  const { usage, quota } = (await storage?.estimate?.()) ?? {};
  const free = usage === undefined || quota === undefined ? null : Math.max(0, quota - usage);
  return { persisted, used_bytes: usage ?? null, free_bytes: free };
}

/** Whether the photos of one walk may not fit; false where the browser gives no estimate. */
export function isTooLittleForAWalk({ free_bytes }: Room): boolean {
  return free_bytes !== null && free_bytes < WALK_BYTES;
}
