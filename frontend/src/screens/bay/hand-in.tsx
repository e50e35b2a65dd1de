/** Handing the card in to the desk: what is still open is said, and nothing stops it. */
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { EVERYTHING, go } from "../route";
import { useBay } from "./context";
import { asText, useDraft } from "./draft";
import { HalfWrittenList } from "./half-written-list";
import type { OpenCard } from "./open-card";
import { PhotosWait } from "./photos-wait";
import { say, type BayKey } from "./say";
import { Screen } from "./shell";
import { offerUndo } from "./undo";
import { vehicleName } from "./vehicle";
import { isLeft, walkSteps } from "./walk-order";

type OpenPoint = { key: BayKey; count: number };
type Props = { card: OpenCard; state: CardState; onDone: () => void };

export function HandIn({ card, state, onDone }: Props) {
  const { nowMs } = useBay();
  const [words, setWords] = useDraft(`${card.id}/stage`, asText);
  const open = useOpenPoints(state);
  const keep = async () => {
    const before = card.standing("stage");
    const entry = await card.keep("handed-in", "stage", { words: (words ?? "").trim() });
    if (!entry) return;
    setWords(null);
    if (before?.kind === "sent-back" || before?.kind === "handed-in")
      offerUndo(card, say("handed-in"), { entry, before }, nowMs());
    onDone();
  };
  return (
    <Screen
      title={say("hand-in")}
      kicker={vehicleName(state)}
      back={{ at: "card", card: card.id }}
      card={card}
      foot={
        <Button look="strong" wide calm onTap={() => void keep()}>
          {say("hand-in-keep")}
        </Button>
      }
    >
      <HalfWrittenList card={card} state={state} but="hand-in" />
      {open.length === 0 ? <p>{say("hand-in-clear")}</p> : <p>{say("hand-in-open")}</p>}
      <ul class="stack">
        {open.map(({ key, count }) => (
          <li key={key} class="told plain">
            {say(key, { count })}
          </li>
        ))}
      </ul>
      {open.some((one) => one.key === "open-proposals") ? (
        <Button onTap={() => go({ at: "findings", card: card.id })}>{say("findings")}</Button>
      ) : null}
      <PhotosWait />
      <Field label={say("hand-in-words")} value={words ?? ""} lines onType={setWords} />
    </Screen>
  );
}

/** What the foreman would ask about. */
function useOpenPoints(state: CardState): OpenPoint[] {
  const { book } = useBay();
  const rounds = Array.from({ length: state.round }, (_, at) => at + 1);
  const leftIn = (round: number) =>
    walkSteps(state, book.stations, round, EVERYTHING).filter((step) => isLeft(step, round)).length;
  const points: OpenPoint[] = [
    { key: "no-checklist", count: state.checklists.length === 0 ? 1 : 0 },
    { key: "open-checks", count: rounds.reduce((sum, round) => sum + leftIn(round), 0) },
    { key: "open-proposals", count: state.proposals.length },
    { key: "open-disagreements", count: state.disagreements.length },
    { key: "open-complaints", count: state.complaints.filter((one) => one.outcome === null).length },
  ];
  return points.filter((one) => one.count > 0);
}
