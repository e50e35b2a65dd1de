/** The walk: the strip of stations, and one check that fills the screen. */
import { useEffect } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { go, goBack, type Route } from "../route";
import { CautionGate } from "./cautions";
import { CheckScreen } from "./check";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { PassedOver } from "./passed-over";
import { say } from "./say";
import { Screen } from "./shell";
import { Button } from "../../ui/button";
import { vehicleName } from "./vehicle";
import { findStep, isLeft, nextLeft, spotOf, walkSteps } from "./walk-order";
import type { WalkRoute } from "./walked-to";

type WalkProps = { card: OpenCard; state: CardState; route: WalkRoute };

export function Walk({ card, state, route }: WalkProps) {
  const { book } = useBay();
  const steps = walkSteps(state, book.stations, route.round, route.scope);
  const wanted = route.spot ? findStep(steps, route.spot) : -1;
  const at = wanted >= 0 ? wanted : Math.max(0, nextLeft(steps, route.round));
  const step = steps[at];
  const isOver = !step || (!route.spot && !steps.some((one) => isLeft(one, route.round)));
  useEffect(() => {
    // The address names the check from now on, so that an answer does not move the screen by itself.
    if (step && !isOver && wanted < 0) go(walkAt(route, step), true);
    if (wanted >= 0) card.place.note(route);
  });
  if (isOver) return <WalkOver card={card} state={state} route={route} steps={steps} />;
  return (
    <CautionGate card={card} state={state} step={step}>
      <CheckScreen
        key={`${step.step.checklist}/${step.step.check.id}/${step.step.place.id}/${route.round}`}
        card={card}
        state={state}
        steps={steps}
        at={at}
        route={{ ...route, spot: spotOf(step) }}
      />
    </CautionGate>
  );
}

/** The route of the same walk at another step. */
export function walkAt(route: WalkRoute, step: Parameters<typeof spotOf>[0]): Route {
  return { ...route, spot: spotOf(step) };
}

function WalkOver({ card, state, route, steps }: WalkProps & { steps: StepState[] }) {
  const back: Route = { at: "card", card: card.id };
  return (
    <Screen title={say("walk-over")} kicker={vehicleName(state)} back={back} card={card}>
      <div class="stack-wide">
        <PassedOver card={card} steps={steps} here={null} round={route.round} />
        <p>{say(steps.length === 0 ? "walk-empty" : "walk-over-says")}</p>
        <Button look="strong" wide onTap={() => go({ at: "findings", card: card.id })}>
          {say("findings-open", { n: state.proposals.length })}
        </Button>
        <Button wide onTap={() => go({ at: "steps", card: card.id, round: route.round, scope: route.scope })}>
          {say("list-of-checks")}
        </Button>
        <Button wide onTap={() => goBack(back)}>
          {say("to-card")}
        </Button>
      </div>
    </Screen>
  );
}
