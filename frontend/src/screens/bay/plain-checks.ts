/** The checks of a station that one tap may answer together: plain choices with one option that is in order. */
import type { Answer, CardState, StepState } from "../../journal/types";
import { outcomeIn } from "./walk-order";

export type PlainAnswer = { slot: string; answer: Answer };

/**
 * One answer for each open step that needs no reading and no photo, and says beyond doubt what "in order" is.
 * `wasTold` says whether the step's cautions have been read on this card: nothing is answered before them.
 */
export function plainAnswers(
  steps: readonly StepState[],
  round: number,
  wasTold: (step: StepState) => boolean,
): PlainAnswer[] {
  return steps.flatMap((step) => {
    const outcome = outcomeIn(step, round);
    const choice = inOrderOption(step);
    if (choice === null || outcome.state !== "open" || !wasTold(step)) return [];
    return [{ slot: outcome.slot, answer: { is: "choice", choice } }];
  });
}

function inOrderOption({ step: { check } }: StepState): string | null {
  if (check.answer.kind !== "choice" || check.photo === "required") return null;
  const [option, ...others] = check.answer.options.filter((one) => one.means === "in-order");
  return option && others.length === 0 ? option.id : null;
}

/** Whether every caution of the step and of its checklist is among those read. */
export function isTold(state: CardState, read: readonly string[], { step }: StepState): boolean {
  const list = state.checklists.find((one) => one.checklist.id === step.checklist)?.checklist;
  return [...(list?.cautions ?? []), ...step.check.cautions].every((id) => read.includes(id));
}
