/** One check fills the screen: question, place, how-to, answer, verdict, evidence, and the way on. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { buzz } from "../../ui/buzz";
import { useLeaving } from "../../ui/leaving";
import { go, type Route } from "../route";
import { AllInOrder } from "./all-in-order";
import { AnswerControl, type AnswerProps } from "./answers/answer";
import { useCameFrom } from "./came-from";
import { CautionLine } from "./cautions";
import { useBay } from "./context";
import { Evidence } from "./evidence";
import { answerText } from "./figures";
import { How } from "./how";
import type { OnKept, OnLeaving } from "./keeping";
import { outcomeWord } from "./marks";
import { useNote } from "./note";
import { PhotoButton } from "./photos";
import { NotChecked } from "./not-checked";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { Strip } from "./strip";
import { PassedOver } from "./passed-over";
import { offerUndo, useUndo } from "./undo";
import { roundName, vehicleName } from "./vehicle";
import { Limits, Verdict } from "./verdict";
import { walkAt } from "./walk";
import { findStep, nextLeft, nextStop, outcomeIn, spotOf, stopsOf, walkSteps } from "./walk-order";
import type { WalkRoute } from "./walked-to";

type CheckProps = { card: OpenCard; state: CardState; steps: StepState[]; at: number; route: WalkRoute };

/** How long a kept answer is shown before the next check comes, in ms. */
export const SHOWN_MS = 650;

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

/** The controls of a check that want to know when it is left. One that is only put aside for another is not asked. */
function useLeavers(): OnLeaving {
  const leavers = useRef(new Set<() => void>());
  useLeaving(() => {
    for (const leave of leavers.current) leave();
  });
  return (leave) => {
    leavers.current.add(leave);
    return () => leavers.current.delete(leave);
  };
}

/** After an answer: offer undo, and go on by itself when nothing asks for a look. */
function useMovingOn(card: OpenCard, step: StepState | undefined, route: WalkRoute) {
  const { nowMs, book } = useBay();
  const [kept, setKept] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const isLeft = useRef(false);
  useEffect(
    () => () => {
      isLeft.current = true;
      clearTimeout(timer.current);
    },
    [],
  );
  const onKept: OnKept = (entry, before, { by = "tap", again } = {}) => {
    const state = card.state.peek();
    if (!state || !step) return;
    const steps = walkSteps(state, book.stations, route.round, route.scope);
    const at = findStep(steps, spotOf(step));
    const now = steps[at] ?? step;
    offerUndo(
      card,
      undoWords(entry, now, route.round),
      { entry, before, where: walkAt(route, step), again },
      nowMs(),
    );
    // Who went on while it was being written is not moved once more.
    if (by === "leaving" || isLeft.current) return;
    setKept(true);
    buzz();
    toQuestion();
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      setKept(false);
      // a camera opened meanwhile is for this check
      if (document.querySelector("dialog[open]") !== null) return;
      if (asksForALook(now, state, route.round)) return showProposal();
      moveOn(card, steps, at, route);
    }, SHOWN_MS);
  };
  return { kept, onKept };
}

/** On to the next check that wants a person; what was worked out on the way is told there. */
function moveOn(card: OpenCard, steps: StepState[], at: number, route: WalkRoute): void {
  const stop = nextStop(steps, at, route.round);
  const next = steps[stop];
  const over = steps.slice(at + 1, next ? stop : undefined);
  const to = next ?? steps[nextLeft(steps, route.round)];
  card.place.pass({ over: over.map(spotOf), to: to ? spotOf(to) : null });
  go(next ? walkAt(route, next) : { ...route, spot: null }, true);
}

/** Where the bars scroll with the page, the screen begins at the place and the question: on a small one all the rest is in sight. */
function toQuestion(): void {
  const top = document.querySelector(".check > .top");
  if (top && getComputedStyle(top).position === "sticky") window.scrollTo(0, 0);
  else document.querySelector(".check-place")?.scrollIntoView({ block: "start" });
}

/** Calls `then` when the phone was turned and the page has its new shape; returns the undo of that. */
function onTurned(then: () => void): () => void {
  const { orientation }: Partial<typeof screen> = screen;
  const turned = () => requestAnimationFrame(then);
  orientation?.addEventListener("change", turned);
  return () => orientation?.removeEventListener("change", turned);
}

/** What to do about a proposed finding stands below the question: on a small screen it has to come into sight. */
function showProposal(): void {
  document.querySelector(".proposal-acts")?.scrollIntoView({ block: "nearest" });
}

function undoWords(entry: Parameters<OnKept>[0], step: StepState, round: number): string {
  const word = outcomeWord(outcomeIn(step, round));
  const what = entry.kind === "answer" ? answerText(entry.body, step.step.check.answer) : "";
  return say("kept-answer", { what: [what, word].filter(Boolean).join(" · ") });
}

/** Beyond, too close, a disagreement or a required photo that is missing keep the check on the screen. */
function asksForALook(step: StepState, state: CardState, round: number): boolean {
  const outcome = outcomeIn(step, round);
  if (["beyond", "too-close", "disagreement"].includes(outcome.state)) return true;
  if (step.step.check.photo !== "required" || outcome.state === "not-checked") return false;
  return !state.photos.some((photo) => photo.body.about === outcome.slot);
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
      <Button
        look="strong"
        name={say("next-check")}
        onTap={() => moveOn(card, steps, at, route)}
      >
        {say("next")} ›
      </Button>
    </nav>
  );
}
