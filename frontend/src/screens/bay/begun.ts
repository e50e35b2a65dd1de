/** Something new that was begun and left: the same button leads back to it, so that nothing typed is lost. */
import type { CardState } from "../../journal/types";
import { useBay } from "./context";
import { asText, useDraft } from "./draft";
import type { OpenCard } from "./open-card";

/**
 * Calls `then` with the id for a new finding or piece of work: the one begun last, unless something was kept under it.
 * It does so at once, but for a tap that comes before the phone has told which one that was.
 */
export function useBegun(
  card: OpenCard,
  state: CardState,
  room: "finding" | "work",
): (then: (id: string) => void) => void {
  const { store } = useBay();
  const key = `${card.id}/${room}/begun`;
  const [begun, setBegun, isRead] = useDraft(key, asText);
  const idFrom = (last: string | null) => {
    if (last !== null && !state.standing.has(`${room}/${last}`)) return last;
    const id = card.newId();
    setBegun(id);
    return id;
  };
  return (then) => {
    if (isRead) then(idFrom(begun));
    else void store.draft(key).then((kept) => then(idFrom(asText(kept))));
  };
}
