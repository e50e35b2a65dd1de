/** One check fills the screen: question, place, how-to, answer, verdict, evidence, and the way on. */
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { go, type Route } from "../route";
import { AllInOrder } from "./all-in-order";
import { AnswerControl, type AnswerProps } from "./answers/answer";
import { useCameFrom } from "./came-from";
import { CautionLine } from "./cautions";
import { useBay } from "./context";
import { Evidence } from "./evidence";
import { How } from "./how";
import { useLeavers } from "./keeping";
import { moveOn, toQuestion, useMovingOn } from "./moving-on";
import { useNote } from "./note";
import { PhotoButton } from "./photos";
import { NotChecked } from "./not-checked";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { Strip } from "./strip";
import { PassedOver } from "./passed-over";
import { useUndo } from "./undo";
import { roundName, vehicleName } from "./vehicle";
import { Limits, Verdict } from "./verdict";
import { walkAt } from "./walk";
import { nextLeft, nextStop, outcomeIn, stopsOf, walkSteps } from "./walk-order";
import type { WalkRoute } from "./walked-to";

type CheckProps = { card: OpenCard; state: CardState; steps: StepState[]; at: number; route: WalkRoute };

export function CheckScreen({ card, state, steps, at, route }: CheckProps) {
  const step = steps[at];
  const { kept, onKept } = useMovingOn(card, step, route);
  const toCard: Route = { at: "card", card: card.id };
  const from = useCameFrom(card.id, toCard);
  useEffect(() => {
    toQuestion();
    return onTurned(toQuestion);
  }, []);
  if (!step) return null;
  const back: Route = from.at === "walk" || from.at === "steps" ? toCard : from;
  const outcome = outcomeIn(step, route.round);
  const { check, place } = step.step;
  const checklist = state.checklists.find((one) => one.checklist.id === step.step.checklist)?.checklist;
  const list = { at: "steps", card: card.id, round: route.round, scope: route.scope } as const;
  return (
    <Screen
      title={check.ask}
      kicker={vehicleName(state)}
      round={roundName(route.round)}
      back={back}
      card={card}
      lead={
        <>
          <Strip card={card} steps={steps} at={at} route={route} />
          <PassedOver card={card} steps={steps} here={step} round={route.round} />
          <p class="check-place">
            <span class="place">{place.title}</span>
            <span class="label">{checklist?.title}</span>
          </p>
        </>
      }
      ownUndo
      look={kept ? "check kept-now" : "check"}
      foot={
        <WayOn card={card} steps={steps} at={at} route={route} onList={() => go(list)}>
          <PhotoButton card={card} about={outcome.slot} round={route.round} />
        </WayOn>
      }
    >
      <CheckBody
        card={card}
        state={state}
        step={step}
        round={route.round}
        outcome={outcome}
        onKept={onKept}
      />
      <StationInOrder card={card} state={state} steps={steps} at={at} route={route} />
    </Screen>
  );
}

function StationInOrder({ card, state, steps, at, route }: CheckProps) {
  const here = steps[at];
  const { book } = useBay();
  const stop = here && stopsOf(steps, route.round).find((one) => one.steps.includes(here));
  if (!stop) return null;
  const goOn = () => {
    const now = walkSteps(card.state.peek() ?? state, book.stations, route.round, route.scope);
    const next = now[nextLeft(now, route.round, at)];
    go(next ? walkAt(route, next) : { ...route, spot: null }, true);
  };
  return (
    <AllInOrder
      card={card}
      state={state}
      steps={stop.steps}
      round={route.round}
      station={stop.station.title}
      onKept={goOn}
    />
  );
}

type BodyProps = Omit<AnswerProps, "note" | "onLeaving">;

/** How-to, cautions and verdict on one side; answer, note and limits on the other. */
function CheckBody(props: BodyProps) {
  const { card, outcome, step } = props;
  const { check } = step.step;
  const [skipping, setSkipping] = useState(false);
  const onLeaving = useLeavers();
  const note = useNote(card, outcome.slot, onLeaving);
  const parts = { ...props, note, onLeaving };
  return (
    <div class="check-body" data-step={outcome.slot}>
      <div class="check-ask stack">
        <How lines={check.how} />
        <CautionLine ids={check.cautions} />
        <Verdict {...props} />
      </div>
      <div class="check-answer stack">
        {skipping ? (
          <NotChecked {...parts} slot={outcome.slot} onClose={() => setSkipping(false)} />
        ) : (
          <AnswerControl {...parts} />
        )}
        <Evidence {...parts} skipping={skipping} onSkip={() => setSkipping(!skipping)} />
        <Limits {...props} />
      </div>
    </div>
  );
}

/** Calls `then` when the phone was turned and the page has its new shape; returns the undo of that. */
function onTurned(then: () => void): () => void {
  const { orientation }: Partial<typeof screen> = screen;
  const turned = () => requestAnimationFrame(then);
  orientation?.addEventListener("change", turned);
  return () => orientation?.removeEventListener("change", turned);
}

type WayOnProps = {
  card: OpenCard;
  steps: StepState[];
  at: number;
  route: WalkRoute;
  onList: () => void;
  children: ComponentChildren;
};

/** The foot keeps its places: the offer to undo covers the count of checks and pushes nothing aside. */
function WayOn({ card, steps, at, route, onList, children }: WayOnProps) {
  const before = steps[nextStop(steps, at, route.round, -1)];
  const { shown, undo } = useUndo(card);
  return (
    <nav class="way" aria-label={say("way-on")}>
      <Button
        name={say("previous-check")}
        disabled={!before}
        onTap={() => before && go(walkAt(route, before), true)}
      >
        ‹
      </Button>
      <div class={shown ? "way-place offers-undo" : "way-place"}>
        <Button
          name={`${say("n-of-m", { n: at + 1, m: steps.length })}, ${say("list-of-checks")}`}
          onTap={onList}
        >
          {say("n-of-m", { n: at + 1, m: steps.length })}
        </Button>
        {shown && (
          <button type="button" class="button undo-here" onClick={undo}>
            <span>{say("undo")}</span>
            <span class="undo-what" role="status">
              {shown.words}
            </span>
          </button>
        )}
      </div>
      {children}
      <Button look="strong" name={say("next-check")} onTap={() => moveOn(card, steps, at, route)}>
        {say("next")} ›
      </Button>
    </nav>
  );
}
