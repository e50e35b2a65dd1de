/** "Begun, not kept": what the desk does not see although somebody typed it, each with the way to finish it. */
import { useEffect, useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { go, type Route } from "../route";
import { useBay } from "./context";
import { draftsChanged } from "./draft";
import { halfWritten, type HalfWritten } from "./half-written";
import { noteKey } from "./note";
import type { OpenCard } from "./open-card";
import { say } from "./say";

/** `but`: the screen it is shown on, whose own words are in sight there. */
type Props = { card: OpenCard; state: CardState; but?: Route["at"] };

export function HalfWrittenList({ card, state, but }: Props) {
  const all = useHalfWritten(card, state).filter((one) => one.route.at !== but);
  if (all.length === 0) return null;
  return (
    <section class="told stack half-written" aria-label={say("half-title")}>
      <h2>{say("half-title")}</h2>
      <p>{say("half-says")}</p>
      {all.map(({ key, kind, about, words, route }) => (
        <Button key={key} wide onTap={() => go(route)}>
          <span class="grow row-name">
            <span class="label">{say(kind)}</span> {about} {words ? <span class="said">{words}</span> : null}
          </span>
        </Button>
      ))}
    </section>
  );
}

function useHalfWritten(card: OpenCard, state: CardState): HalfWritten[] {
  const { store } = useBay();
  const [drafts, setDrafts] = useState<Record<string, unknown>>({});
  const changes = draftsChanged.value;
  useEffect(() => {
    let gone = false;
    const both = [store.drafts(`${card.id}/`), store.drafts(noteKey(card.id, ""))];
    void Promise.all(both).then(([own, notes]) => {
      if (!gone) setDrafts({ ...own, ...notes });
    });
    return () => {
      gone = true;
    };
  }, [store, card.id, changes, state]);
  return halfWritten(drafts, state, card.id);
}
