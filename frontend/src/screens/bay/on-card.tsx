/** An opened card: keeps it open while the screens change, and shows the one the address names. */
import "./card-words";
import { useLayoutEffect, useState } from "preact/hooks";
import { goBack, type Route } from "../route";
import { BookIn } from "./book-in";
import { CardScreen } from "./card";
import { ComplaintScreen } from "./complaint";
import type { Bay } from "./context";
import { FindingScreen } from "./finding";
import { Findings } from "./findings";
import { HandIn } from "./hand-in";
import { openCard, type OpenCard } from "./open-card";
import { Recheck } from "./recheck";
import { Steps } from "./steps";
import { Walk } from "./walk";
import { Work } from "./work";

export type CardRoute = Extract<Route, { card: string }>;

/** Opens the card of the address and keeps it open while the screens change. */
export function OnCard({ bay, route }: { bay: Bay; route: CardRoute }) {
  const [card, setCard] = useState<OpenCard | null>(null);
  // before the browser paints: what is read first is shown a frame sooner
  useLayoutEffect(() => {
    const opened = openCard(bay, route.card);
    setCard(opened);
    return opened.close;
  }, [bay, route.card]);
  const state = card?.state.value;
  if (!card || !state) return null;
  switch (route.at) {
    case "card":
      return <CardScreen card={card} state={state} />;
    case "book-in":
      return <BookIn card={card} state={state} part={route.part} />;
    case "walk":
      return <Walk card={card} state={state} route={route} />;
    case "steps":
      return <Steps card={card} state={state} round={route.round} scope={route.scope} />;
    case "findings":
      return <Findings card={card} state={state} />;
    case "finding":
      return <FindingScreen key={route.slot} card={card} state={state} slot={route.slot} />;
    case "complaint":
      return <ComplaintScreen card={card} state={state} id={route.complaint} />;
    case "work":
      return <Work key={route.work} card={card} state={state} id={route.work} />;
    case "recheck":
      return <Recheck card={card} state={state} />;
    case "hand-in":
      return <HandIn card={card} state={state} onDone={() => goBack({ at: "card", card: card.id })} />;
  }
}
