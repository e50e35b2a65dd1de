/** The strip of stations in walking order, each with what is left there. */
import { useEffect, useRef } from "preact/hooks";
import type { StepState } from "../../journal/types";
import { go } from "../route";
import { say } from "./say";
import type { OpenCard } from "./open-card";
import { walkAt } from "./walk";
import { isLeft, spotOf, stopsOf, type Stop } from "./walk-order";
import { backTo, type WalkRoute } from "./walked-to";

type StripProps = { card: OpenCard; steps: StepState[]; at: number; route: WalkRoute };

export function Strip({ card, steps, at, route }: StripProps) {
  const current = useRef<HTMLLIElement>(null);
  const here = steps[at];
  useEffect(() => {
    current.current?.scrollIntoView({ block: "nearest", inline: "center" });
  }, [here?.step.station.id]);
  return (
    <nav class="strip" aria-label={say("stations")}>
      <ol>
        <WayBack card={card} steps={steps} at={at} route={route} />
        {stopsOf(steps, route.round).map((stop, index) => {
          const now = here !== undefined && stop.steps.includes(here);
          return (
            <li key={`${stop.station.id}/${index}`} ref={now ? current : null}>
              <StopButton
                stop={stop}
                now={now}
                onGo={(target) => {
                  if (here && !now) card.place.jump(spotOf(here));
                  go(walkAt(route, target), true);
                }}
                round={route.round}
              />
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

/** Back to the check one jumped away from: stays in sight at the near end of the strip. */
function WayBack({ card, steps, at, route }: StripProps) {
  const back = backTo(steps, card.place.jumpedFrom.value, at, route.round);
  useEffect(() => {
    if (back === null) card.place.forget();
  }, [card, back]);
  if (back === null) return null;
  const { check, place } = back.step;
  const goBack = () => {
    card.place.forget();
    go(walkAt(route, back), true);
  };
  return (
    <li class="stop-back">
      <button
        type="button"
        class="stop"
        aria-label={say("back-to", { what: `${place.title} · ${check.ask}` })}
        onClick={goBack}
      >
        {say("back-to", { what: place.title })}
      </button>
    </li>
  );
}

type StopProps = { stop: Stop; now: boolean; round: number; onGo: (target: StepState) => void };

function StopButton({ stop, now, round, onGo }: StopProps) {
  const target = stop.steps.find((step) => isLeft(step, round)) ?? stop.steps[0];
  const left = stop.left === 0 ? say("nothing-left") : say("left", { n: stop.left });
  return (
    <button
      type="button"
      class={stop.left === 0 ? "stop done" : "stop"}
      aria-current={now ? "step" : undefined}
      onClick={() => target && onGo(target)}
    >
      <span>{stop.station.title}</span>
      <span class="stop-left">{left}</span>
    </button>
  );
}
