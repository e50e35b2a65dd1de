/** Two people measured apart: both stand until someone picks one or measures again. */
import type { Entry, StepOutcome, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { formatDateTime } from "../../words/words";
import { useBay } from "./context";
import { answerText } from "./figures";
import type { OpenCard } from "./open-card";
import { say } from "./say";

type Props = { card: OpenCard; outcome: StepOutcome; step: StepState };

export function Settle({ card, outcome, step }: Props) {
  const { me } = useBay();
  const says = (entry: Entry) =>
    entry.kind === "answer" ? answerText(entry.body, step.step.check.answer) : say("state-not-checked");
  return (
    <div class="told stack">
      <p>{say("disagreement-says")}</p>
      {outcome.standing.map((entry) => (
        <Button key={entry.id} calm onTap={() => void card.keep(entry.kind, entry.slot, entry.body)}>
          <span>
            {say("settle-with", { what: says(entry) })}
            <span class="choice-hint">
              {say(entry.author === me.person.id ? "settle-yours" : "settle-anothers", {
                when: formatDateTime(entry.made_at),
              })}
            </span>
          </span>
        </Button>
      ))}
    </div>
  );
}
