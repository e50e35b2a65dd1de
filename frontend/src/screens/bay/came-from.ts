/** Where "‹" of a screen leads that can be opened from several places. */
import { useState } from "preact/hooks";
import { openedFrom, type Route } from "../route";

/** The screen of the same card from which this one was opened, and `otherwise` where there is none. */
export function useCameFrom(card: string, otherwise: Route): Route {
  const [from] = useState(openedFrom);
  return from !== null && "card" in from && from.card === card ? from : otherwise;
}
