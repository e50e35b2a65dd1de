/** The order of the walk: which checks, at which station, and what is left there. */
import type { CardState, StepOutcome, StepState } from "../../journal/types";
import { nothing } from "../../journal/verdicts";
import { parseSlot } from "../../journal/slots";
import type { Station } from "../../measure/book";
import { EVERYTHING, type Spot } from "../route";

export type Stop = { station: Station; steps: StepState[]; left: number };

const SETTLED = new Set<StepOutcome["state"]>([
  "recorded",
  "in-order",
  "beyond",
  "too-close",
  "not-checked",
  "not-asked",
]);

/** What is known of a step in a round; a round nobody reached yet is open. */
export function outcomeIn(step: StepState, round: number): StepOutcome {
  return step.rounds[round - 1] ?? nothing(step.step, round);
}

/** Whether a step still wants something in this round: an answer, or a disagreement settled. */
export function isLeft(step: StepState, round: number): boolean {
  const { state } = outcomeIn(step, round);
  if (SETTLED.has(state)) return false;
  return !(state === "open" && step.step.check.answer.kind === "worked-out");
}

/** The steps of a walk in order. Round 2 and later walk what was repaired or already answered again. */
export function walkSteps(
  state: CardState,
  stations: readonly Station[],
  round: number,
  scope: string,
): StepState[] {
  const repaired = round === 1 ? [] : repairedSteps(state);
  const chosen = state.checklists.filter((one) => scope === EVERYTHING || one.checklist.id === scope);
  const asked = chosen
    .flatMap((one) => one.steps)
    .filter(
      (step) =>
        outcomeIn(step, round).state !== "not-asked" && (round === 1 || wantsRecheck(repaired, step, round)),
    );
  return scope === EVERYTHING ? byStation(asked, stations) : asked;
}

const MEASURED = new Set(["number", "spread", "run"]);

/**
 * What is checked again after work: the check behind a repaired finding, the other side where the sides are compared,
 * what was measured at the same station as found, and what was answered after work already.
 */
function wantsRecheck(repaired: readonly StepState[], step: StepState, round: number): boolean {
  if (outcomeIn(step, round).standing.length > 0) return true;
  return repaired.some((one) => isSame(one, step) || isOtherSide(one, step) || wasMeasuredThere(one, step));
}

function repairedSteps(state: CardState): StepState[] {
  const about = new Set(
    state.findings.filter((one) => one.work.length > 0).map((one) => one.entry.body.about),
  );
  return state.checklists
    .flatMap((one) => one.steps)
    .filter(({ step }) => about.has(`${step.checklist}/${step.check.id}/${step.place.id}`));
}

function isSameCheck({ step: a }: StepState, { step: b }: StepState): boolean {
  return a.checklist === b.checklist && a.check.id === b.check.id;
}

function isSame(a: StepState, b: StepState): boolean {
  return isSameCheck(a, b) && a.step.place.id === b.step.place.id;
}

function isOtherSide(a: StepState, b: StepState): boolean {
  const compares = a.step.check.limits.some((limit) => limit.of === "side-difference");
  return compares && isSameCheck(a, b) && a.step.place.pair === b.step.place.id;
}

/** A repair changes what a gauge reads there, whatever had raised the finding. */
function wasMeasuredThere(repaired: StepState, { step, rounds }: StepState): boolean {
  const there = repaired.step.checklist === step.checklist && repaired.step.station.id === step.station.id;
  return there && MEASURED.has(step.check.answer.kind) && (rounds[0]?.standing.length ?? 0) > 0;
}

function byStation(steps: StepState[], stations: readonly Station[]): StepState[] {
  const rank = new Map(stations.map((station, at) => [station.id, at]));
  const of = (step: StepState) => rank.get(step.step.station.id) ?? stations.length;
  return steps
    .map((step, at) => ({ step, at }))
    .sort((a, b) => of(a.step) - of(b.step) || a.at - b.at)
    .map(({ step }) => step);
}

/** The walk as an ordered strip: one stop per visit of a station. */
export function stopsOf(steps: readonly StepState[], round: number): Stop[] {
  const stops: Stop[] = [];
  for (const step of steps) {
    const last = stops.at(-1);
    const stop =
      last?.station.id === step.step.station.id ? last : { station: step.step.station, steps: [], left: 0 };
    if (stop !== last) stops.push(stop);
    stop.steps.push(step);
    if (isLeft(step, round)) stop.left += 1;
  }
  return stops;
}

export function spotOf(step: StepState): Spot {
  const { checklist, check, place } = step.step;
  return { checklist, check: check.id, place: place.id };
}

export function findStep(steps: readonly StepState[], spot: Spot): number {
  return steps.findIndex(
    ({ step }) =>
      step.checklist === spot.checklist && step.check.id === spot.check && step.place.id === spot.place,
  );
}

/**
 * Whether the walk passes over a step: worked out by itself, with nothing to look at and nothing to give. One that lacks
 * only answers waits for those; a figure or fact it lacks is asked for where it stands.
 */
export function isPassedOver(step: StepState, round: number): boolean {
  const { answer, photo } = step.step.check;
  if (answer.kind !== "worked-out" || photo === "required") return false;
  const { state, lacks } = outcomeIn(step, round);
  if (state === "open") return lacks.every((slot) => parseSlot(slot)?.is === "check");
  return state === "in-order" || state === "recorded";
}

/** The next step that the walk stops at after (`by` 1) or before (-1) the one at `at`; -1 when there is none. */
export function nextStop(steps: readonly StepState[], at: number, round: number, by: 1 | -1 = 1): number {
  for (let next = at + by; next >= 0 && next < steps.length; next += by) {
    const step = steps[next];
    if (step && !isPassedOver(step, round)) return next;
  }
  return -1;
}

/** The first step that is left, from `from` on and then from the start; -1 when none is. */
export function nextLeft(steps: readonly StepState[], round: number, from = 0): number {
  const after = steps.findIndex((step, at) => at >= from && isLeft(step, round));
  return after >= 0 ? after : steps.findIndex((step) => isLeft(step, round));
}
