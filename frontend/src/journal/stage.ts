/** How far a card has come. */
import { digest } from "./digest";
import type { Entry, EntryOf, Stage, Standing } from "./types";

/** The stage from what stands in the slot `stage`; a signed card also says whether entries came after its sign-off. */
export function stageOf(standing: Standing, entries: readonly Entry[]): Stage {
  const stand = standing.get("stage") ?? [];
  const [entry] = stand;
  if (stand.length > 1) return { is: "disagreement", standing: stand };
  switch (entry?.kind) {
    case "handed-in":
      return { is: "handed-in", entry };
    case "sent-back":
      return { is: "sent-back", entry };
    case "signed-off":
      return { is: "signed", entry, changedSince: isChanged(entry, entries) };
    default:
      return { is: "walking" };
  }
}

function isChanged(signOff: EntryOf<"signed-off">, entries: readonly Entry[]): boolean {
  const ids = new Set(entries.map(({ id }) => id));
  ids.delete(signOff.id);
  return ids.size !== signOff.body.count || digest(ids) !== signOff.body.digest;
}
