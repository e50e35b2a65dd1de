/** What a limit proposed and a person did not call a finding, with the reason. */
import type { CardState, EntryOf } from "../../journal/types";
import { Reading } from "./evidence";
import { stepAbout, stepName } from "./evidence-of";
import { tell } from "./tell";
import { Trail } from "./trail";

export function Declined({ state }: { state: CardState }) {
  if (state.declined.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="declined">
      <h2 id="declined">{tell("declined")}</h2>
      <ul class="desk-lines">
        {state.declined.map((entry) => (
          <Line key={entry.id} state={state} entry={entry} />
        ))}
      </ul>
    </section>
  );
}

function Line({ state, entry }: { state: CardState; entry: EntryOf<"finding-declined"> }) {
  const step = stepAbout(state, entry.slot.replace(/^finding\/at\//, ""));
  const outcome = step?.rounds.findLast((one) => one.standing.length > 0 || one.value !== null);
  return (
    <li>
      <div class="grow">
        <p>{step ? stepName(step) : entry.slot}</p>
        {step && outcome ? <Reading outcome={outcome} spec={step.step.check.answer} /> : null}
      </div>
      <div class="grow">
        <p dir="auto">{tell("declined-because", { words: entry.body.words })}</p>
        <Trail state={state} slot={entry.slot} />
      </div>
    </li>
  );
}
