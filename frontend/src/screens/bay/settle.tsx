/** Two people measured apart: both stand until someone picks one or measures again. */
import type { CardState, Entry, StepOutcome, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { formatDateTime } from "../../words/words";
import { useBay } from "./context";
import { answerText } from "./figures";
import type { OnKept } from "./keeping";
import type { OpenCard } from "./open-card";
import { say } from "./say";

type Props = {
  card: OpenCard;
  state: CardState;
  outcome: StepOutcome;
  step: StepState;
  onKept: OnKept;
};

export function Settle({ card, state, outcome, step, onKept }: Props) {
  const { me } = useBay();
  const says = (entry: Entry) =>
    entry.kind === "answer" ? answerText(entry.body, step.step.check.answer) : say("state-not-checked");
  const settle = async ({ kind, slot, body }: Entry) => {
    const before = card.standing(slot);
    const entry = await card.keep(kind, slot, body);
    if (entry) onKept(entry, before);
  };
  return (
    <div class="told stack">
      <p>{say("disagreement-says")}</p>
      {outcome.standing.map((entry) => {
        const first = firstSaid(entry, state.entries);
        return (
          <Button key={entry.id} calm onTap={() => void settle(entry)}>
            <span>
              {say("settle-with", { what: says(entry) })}
              <span class="choice-hint">
                {say(first.author === me.person.id ? "settle-yours" : "settle-anothers", {
                  when: formatDateTime(first.made_at),
                })}
              </span>
            </span>
          </Button>
        );
      })}
    </div>
  );
}

/** The entry in which the same was said first: an undone settling puts both there again in the name of who undid it. */
function firstSaid(entry: Entry, entries: readonly Entry[]): Entry {
  const said = JSON.stringify(entry.body);
  let first = entry;
  const seen = new Set([entry.id]);
  for (const id of seen)
    for (const one of entries) {
      if (one.id !== id) continue;
      if (one.kind === entry.kind && JSON.stringify(one.body) === said) first = one;
      for (const older of one.replaces) seen.add(older);
    }
  return first;
}
