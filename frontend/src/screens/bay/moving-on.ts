/** How the walk goes on from a check: by itself after an answer that asks for no look, or by a tap. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { buzz } from "../../ui/buzz";
import { go } from "../route";
import { useBay } from "./context";
import { answerText } from "./figures";
import type { OnKept } from "./keeping";
import { outcomeWord } from "./marks";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { offerUndo } from "./undo";
import { walkAt } from "./walk";
import { findStep, nextLeft, nextStop, outcomeIn, spotOf, walkSteps } from "./walk-order";
import type { WalkRoute } from "./walked-to";

/** How long a kept answer is shown before the next check comes, in ms. */
export const SHOWN_MS = 650;

/** After an answer: offer undo, and go on by itself when nothing asks for a look. */
export function useMovingOn(card: OpenCard, step: StepState | undefined, route: WalkRoute) {
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
export function moveOn(card: OpenCard, steps: StepState[], at: number, route: WalkRoute): void {
  const stop = nextStop(steps, at, route.round);
  const next = steps[stop];
  const over = steps.slice(at + 1, next ? stop : undefined);
  const to = next ?? steps[nextLeft(steps, route.round)];
  card.place.pass({ over: over.map(spotOf), to: to ? spotOf(to) : null });
  go(next ? walkAt(route, next) : { ...route, spot: null }, true);
}

/**
 * Where the bars scroll with the page, the screen begins at the place and the question: on a small one all the rest is in
 * sight. What was worked out on the way here stands before them and is not passed over unread.
 */
export function toQuestion(): void {
  const top = document.querySelector(".check > .top");
  if (top && getComputedStyle(top).position === "sticky") window.scrollTo(0, 0);
  else document.querySelector(".passed-over, .check-place")?.scrollIntoView({ block: "start" });
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
