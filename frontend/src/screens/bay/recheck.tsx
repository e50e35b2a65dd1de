/** The recheck: as found beside after work for every check of repaired findings. */
import type { CardState, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { EVERYTHING, go } from "../route";
import { useBay } from "./context";
import { outcomeLook, outcomeText } from "./figures";
import { OutcomeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { roundName, vehicleName } from "./vehicle";
import { isLeft, outcomeIn, spotOf, walkSteps } from "./walk-order";

type Props = { card: OpenCard; state: CardState };

export function Recheck({ card, state }: Props) {
  const { book } = useBay();
  const round = Math.max(2, state.round);
  const steps = walkSteps(state, book.stations, round, EVERYTHING);
  const left = steps.filter((step) => isLeft(step, round)).length;
  const walk = { at: "walk", card: card.id, round, scope: EVERYTHING, spot: null } as const;
  return (
    <Screen
      title={say("recheck")}
      kicker={vehicleName(state)}
      back={{ at: "card", card: card.id }}
      card={card}
      foot={
        steps.length > 0 ? (
          <Button look="strong" wide onTap={() => go(walk)}>
            {say(left === 0 ? "walk-again" : "recheck-walk", { n: left })}
          </Button>
        ) : null
      }
    >
      <p class={steps.length === 0 ? "told plain" : "soft"}>
        {say(steps.length === 0 ? "recheck-none" : "recheck-says")}
      </p>
      <ul class="stack">
        {steps.map((step) => (
          <li key={outcomeIn(step, round).slot}>
            <Beside step={step} round={round} onTap={() => go({ ...walk, spot: spotOf(step) })} />
          </li>
        ))}
      </ul>
    </Screen>
  );
}

function Beside({ step, round, onTap }: { step: StepState; round: number; onTap: () => void }) {
  const rounds = Array.from({ length: round }, (_, at) => at + 1);
  const { check, place } = step.step;
  return (
    <section class="beside">
      <h2>
        {check.ask} <span class="soft">{place.title}</span>
      </h2>
      <div class="beside-rounds">
        {rounds.map((one) => {
          const outcome = outcomeIn(step, one);
          return (
            <div key={one}>
              <p class="label">{roundName(one)}</p>
              <p class={outcomeLook(outcome, check.answer)}>{outcomeText(outcome, check.answer) || "–"}</p>
              <OutcomeMark outcome={outcome} />
            </div>
          );
        })}
      </div>
      <Button wide onTap={onTap}>
        {say("recheck-this")}
      </Button>
    </section>
  );
}
