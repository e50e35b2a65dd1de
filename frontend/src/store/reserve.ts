/** Room set aside on the phone, so that readings still go in when nothing else does. */
import type { Context } from "./entries";
import { META } from "./meta";
import { change, write } from "./transact";

/** A reading takes about 1 kB with its line and the browser's own log: enough for a whole walk of some 300 and to spare. */
export const RESERVE_BYTES = 512 * 1024;

/** Sets the room aside unless it is; raises StoreError `full` when there is none. Asked before each photo: photos give way first. */
export async function setAside({ handle }: Context): Promise<void> {
  const there = await handle.use((db) => db.getKey("meta", META.reserve));
  if (there !== undefined) return;
  await handle.use((db) =>
    change(db, ["meta"], "strict", async (tx) => write(tx.objectStore("meta").put(filling(), META.reserve))),
  );
}

/** Gives the room to what comes next; false when it had been given before. */
export function giveUp({ handle }: Context): Promise<boolean> {
  return handle.use((db) =>
    change(db, ["meta"], "strict", async (tx) => {
      const meta = tx.objectStore("meta");
      if ((await meta.getKey(META.reserve)) === undefined) return false;
      write(meta.delete(META.reserve));
      return true;
    }),
  );
}

/** Bytes that do not pack: browsers pack what they keep, and room that packs away is no room. */
function filling(): ArrayBuffer {
  const words = new Uint32Array(RESERVE_BYTES / 4);
  let word = 0x9e3779b9;
  for (let at = 0; at < words.length; at += 1) {
    word ^= word << 13;
    word ^= word >>> 17;
    word ^= word << 5;
    words[at] = word;
  }
  return words.buffer;
}
