/** The list of all checks of the walk, station by station, each with its mark; one tap goes there. */
import { useLayoutEffect, useState } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { Field } from "../../ui/field";
import { goBack } from "../route";
import { AllInOrder } from "./all-in-order";
import { useCameFrom } from "./came-from";
import { useBay } from "./context";
import { outcomeLook, outcomeText } from "./figures";
import { findSteps } from "./find-steps";
import { OutcomeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { roundName, vehicleName } from "./vehicle";
import { outcomeIn, spotOf, stopsOf, walkSteps, type Stop } from "./walk-order";
import { presentStep, walkOn, type WalkRoute } from "./walked-to";

type Props = { card: OpenCard; state: CardState; round: number; scope: string };

export function Steps({ card, state, round, scope }: Props) {
  const { book } = useBay();
  const [wanted, setWanted] = useState("");
  const all = walkSteps(state, book.stations, round, scope);
  const stops = stopsOf(all, round);
  const found = new Set(findSteps(all, wanted, state));
  const start: WalkRoute = { at: "walk", card: card.id, round, scope, spot: null };
  const last = walkOn(all, card.place.last.value, start);
  const back = useCameFrom(card.id, last);
  const present = presentStep(all, card.place.last.value, round);
  const isSearched = wanted.trim() !== "";
  useInSight(present && outcomeIn(present, round).slot, isSearched);
  const jump = (step: StepState) => {
    if (last.spot) card.place.jump(last.spot);
    goBack({ ...start, spot: spotOf(step) });
  };
  return (
    <Screen
      title={say("list-of-checks")}
      kicker={vehicleName(state)}
      round={roundName(round)}
      back={back}
      card={card}
      look="steps"
      foot={
        <Field
          label={say("search-checks")}
          value={wanted}
          onType={setWanted}
          told={isSearched ? <p class="soft">{say("checks-found", { count: found.size })}</p> : null}
        />
      }
    >
      {state.checklists.length === 0 ? <p class="told plain">{say("no-checklist")}</p> : null}
      {stops.map((stop, at) => (
        <StopList
          key={`${stop.station.id}/${at}`}
          {...{ card, state, stop, round, present }}
          steps={stop.steps.filter((step) => found.has(step))}
          whole={!isSearched}
          onGo={jump}
        />
      ))}
    </Screen>
  );
}

/** The present check comes into sight when the list opens and when a search is over; what is found begins at the top. */
function useInSight(present: string | null, isSearched: boolean): void {
  useLayoutEffect(() => {
    if (isSearched) {
      window.scrollTo(0, 0);
      return undefined;
    }
    const show = () => document.querySelector(CURRENT)?.scrollIntoView({ block: "center" });
    show();
    // Rows out of sight have a guessed height until they come near.
    const again = requestAnimationFrame(show);
    return () => cancelAnimationFrame(again);
  }, [present, isSearched]);
}

const CURRENT = ".step-row[aria-current]";

type StopProps = Omit<Props, "scope"> & {
  stop: Stop;
  present: StepState | null;
  steps: StepState[];
  whole: boolean;
  onGo: (step: StepState) => void;
};

/** One station: what is left there, its checks, and one tap for the plain ones that are in order. */
function StopList({ card, state, stop, steps, round, present, whole, onGo }: StopProps) {
  if (steps.length === 0) return null;
  return (
    <section class="stack stop-list">
      <h2>
        {stop.station.title}{" "}
        <span class="label">{stop.left === 0 ? say("nothing-left") : say("left", { n: stop.left })}</span>
      </h2>
      {steps.map((step) => (
        <StepRow
          key={outcomeIn(step, round).slot}
          step={step}
          round={round}
          isPresent={step === present}
          onGo={onGo}
        />
      ))}
      {whole ? (
        <AllInOrder card={card} state={state} steps={steps} round={round} station={stop.station.title} />
      ) : null}
    </section>
  );
}

type RowProps = { step: StepState; round: number; isPresent: boolean; onGo: (step: StepState) => void };

function StepRow({ step, round, isPresent, onGo }: RowProps) {
  const outcome = outcomeIn(step, round);
  const { check, place } = step.step;
  return (
    <button
      type="button"
      class="step-row"
      aria-current={isPresent ? "step" : undefined}
      onClick={() => onGo(step)}
    >
      <span>
        {check.ask} <span class="soft">{place.title}</span>
      </span>
      <span class="step-row-is">
        <OutcomeMark outcome={outcome} />
        <span class={outcomeLook(outcome, check.answer)}>{outcomeText(outcome, check.answer)}</span>
      </span>
    </button>
  );
}
