/** What was worked out between two checks: the walk passes over it, so its result and verdict are told at the next one. */
import type { StepState } from "../../journal/types";
import { outcomeText } from "./figures";
import { OutcomeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { findStep, outcomeIn, spotOf } from "./walk-order";

/** `here`: the check the walk came to; null at its end. */
type Props = { card: OpenCard; steps: StepState[]; here: StepState | null; round: number };

export function PassedOver({ card, steps, here, round }: Props) {
  const { over, to } = card.place.passed.value;
  if (JSON.stringify(to) !== JSON.stringify(here && spotOf(here))) return null;
  const told = over
    .map((spot) => steps[findStep(steps, spot)])
    .filter((step) => step !== undefined)
    .filter((step) => outcomeIn(step, round).own !== null);
  if (told.length === 0) return null;
  return (
    <ul class="passed-over" aria-label={say("worked-out")}>
      {told.map((step) => (
        <PassedStep key={outcomeIn(step, round).slot} step={step} round={round} />
      ))}
    </ul>
  );
}

function PassedStep({ step, round }: { step: StepState; round: number }) {
  const outcome = outcomeIn(step, round);
  const { check, place } = step.step;
  return (
    <li>
      <span class="passed-what">
        {check.ask} <span class="soft">{place.title}</span>
      </span>
      <span class="passed-is">
        <span class="figure">{outcomeText(outcome, check.answer)}</span>
        <OutcomeMark outcome={outcome} />
      </span>
    </li>
  );
}
