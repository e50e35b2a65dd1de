/** What was not checked and why, and what nobody has answered yet. */
import type { CardState } from "../../journal/types";
import { Disclosure } from "../../ui/disclosure";
import { reasonText } from "./entry-words";
import { stepName } from "./evidence-of";
import { openSteps } from "./needs";
import { tell } from "./tell";
import { Trail } from "./trail";

export function NotChecked({ state }: { state: CardState }) {
  return (
    <section class="stack" aria-labelledby="not-checked">
      <h2 id="not-checked">{tell("not-checked")}</h2>
      {state.notChecked.length === 0 ? <p class="soft">{tell("nothing-skipped")}</p> : null}
      <ul class="desk-lines">
        {state.notChecked.map(({ step, entry }) => (
          <li key={entry.id}>
            <span class="grow">{stepName({ step })}</span>
            <div class="grow">
              <p dir="auto">{reasonText(entry.body)}</p>
              <Trail state={state} slot={entry.slot} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function StillOpen({ state }: { state: CardState }) {
  const open = openSteps(state);
  if (open.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="still-open">
      <h2 id="still-open">{tell("still-open", { count: open.length })}</h2>
      {state.checklists.map(({ checklist }) => {
        const own = open.filter(({ step }) => step.step.checklist === checklist.id);
        return own.length === 0 ? null : (
          <Disclosure key={checklist.id} title={`${checklist.title} · ${own.length}`}>
            <ul class="desk-columns">
              {own.map(({ step, outcome }) => (
                <li key={outcome.slot}>{stepName(step)}</li>
              ))}
            </ul>
          </Disclosure>
        );
      })}
    </section>
  );
}
