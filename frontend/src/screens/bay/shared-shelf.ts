/** Photos handed over by another app: the service worker lays them on a shelf, where they stay until a card is chosen. */

/** The service worker knows the shelf under the same name. */
export const SHELF = "shared-photos";

export type SharedPhoto = { key: string; file: Blob };
export type Shelf = {
  photos(): Promise<SharedPhoto[]>;
  remove(key: string): Promise<void>;
};

/** null where the browser has no such shelf. */
export function shelfOf(caches: CacheStorage | undefined): Shelf | null {
  if (caches === undefined) return null;
  return {
    photos: async () => {
      const shelf = await caches.open(SHELF);
      const found: SharedPhoto[] = [];
      for (const request of await shelf.keys()) {
        const answer = await shelf.match(request);
        if (answer) found.push({ key: request.url, file: await answer.blob() });
      }
      return found;
    },
    remove: async (key) => {
      await (await caches.open(SHELF)).delete(key);
    },
  };
}
