/** What this phone holds of the workshop's cards beyond what waits: for a server that was put back and lacks it. */
import type { Entry } from "../journal/types";
import type { Store } from "../store/types";

export type HeldLine = { entry: Entry; outbox: null };

/** Made by the server only: it takes them from nobody. */
const BY_THE_SERVER: Entry["kind"][] = ["signed-off"];

/**
 * Whole cards, the newest first, as long as there is room for their entries; those of `but` are left out. A card of which
 * nothing was fetched here is left out, too: it may be another workshop's, and what was made here is sent again by itself.
 */
export async function heldLines(
  store: Pick<Store, "cards" | "entriesOf">,
  but: ReadonlySet<string>,
  room: number,
): Promise<HeldLine[]> {
  const found: HeldLine[] = [];
  for (const card of (await store.cards()).reverse()) {
    const entries = await store.entriesOf(card);
    const rest = entries.filter(({ id, kind }) => !but.has(id) && !BY_THE_SERVER.includes(kind));
    if (found.length + rest.length > room) break;
    if (entries.some(isFetched)) found.push(...rest.map((entry) => ({ entry: asSent(entry), outbox: null })));
  }
  return found;
}

function isFetched(entry: Entry): boolean {
  return "arrival" in entry;
}

/** The number of arrival was given by a server that no longer knows it. */
function asSent(entry: Entry): Entry {
  const sent: Entry & { arrival?: number } = { ...entry };
  delete sent.arrival;
  return sent;
}
