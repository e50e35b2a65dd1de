/** Everything that was checked again after work: as found beside after work. */
import type { CardState } from "../../journal/types";
import { roundName } from "../bay/vehicle";
import { Reading } from "./evidence";
import { stepName } from "./evidence-of";
import { recheckedSteps } from "./needs";
import { tell } from "./tell";
import { Trail } from "./trail";

export function Rechecks({ state }: { state: CardState }) {
  const steps = recheckedSteps(state);
  if (steps.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="rechecks">
      <h2 id="rechecks">{tell("rechecks", { count: steps.length })}</h2>
      <ul class="desk-lines desk-again">
        {steps.map((step) => (
          <li key={step.rounds[0]?.slot}>
            <span class="grow">{stepName(step)}</span>
            <div class="desk-rounds grow">
              {step.rounds.map((outcome, at) =>
                outcome.standing.length === 0 && at > 0 ? null : (
                  <div key={outcome.slot}>
                    <p class="label">{roundName(at + 1)}</p>
                    <Reading outcome={outcome} spec={step.step.check.answer} />
                    <Trail state={state} slot={outcome.slot} />
                  </div>
                ),
              )}
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
