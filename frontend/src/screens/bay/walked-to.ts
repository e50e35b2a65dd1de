/** Where a walk was put down, kept on the phone at every step, and where one jumped away from. */
import { signal, type ReadonlySignal } from "@preact/signals";
import type { StepState } from "../../journal/types";
import type { Store } from "../../store/types";
import { pathOf, routeOf, type Route, type Spot } from "../route";
import { findStep, isLeft, nextLeft } from "./walk-order";

export type WalkRoute = Extract<Route, { at: "walk" }>;

export type Place = {
  /** the check on the screen when the walk was last seen; null when the card was never walked on this phone */
  last: ReadonlySignal<WalkRoute | null>;
  /** the check one jumped away from; null when the walk goes on in order */
  jumpedFrom: ReadonlySignal<Spot | null>;
  /** notes the check now on the screen */
  note: (route: WalkRoute) => void;
  /** notes that the walk leaves its order here; a second jump still leads back to the first place */
  jump: (from: Spot) => void;
  forget: () => void;
  /** the worked-out steps the walk has just passed over, and the check it came to; null: to its end */
  passed: ReadonlySignal<Passed>;
  pass: (passed: Passed) => void;
};
export type Passed = { over: readonly Spot[]; to: Spot | null };

/** Reads the last place of this card; until that is done it is null. */
export function placeOf(store: Pick<Store, "setting" | "keepSetting">, card: string): Place {
  const name = `walked-to/${card}`;
  const last = signal<WalkRoute | null>(null);
  const jumpedFrom = signal<Spot | null>(null);
  const passed = signal<Passed>({ over: [], to: null });
  void store.setting(name).then((kept) => (last.value ??= asWalk(kept, card)));
  return {
    last,
    jumpedFrom,
    note: (route) => {
      if (route.spot === null || isSameWalk(route, last.peek())) return;
      last.value = route;
      void store.keepSetting(name, pathOf(route)).catch(() => undefined);
    },
    jump: (from) => (jumpedFrom.value ??= from),
    forget: () => (jumpedFrom.value = null),
    passed,
    pass: (now) => (passed.value = now),
  };
}

function asWalk(kept: unknown, card: string): WalkRoute | null {
  const route = typeof kept === "string" ? routeOf(kept) : null;
  return route?.at === "walk" && route.card === card ? route : null;
}

/** The step to come back to: the one left by a jump, or the first one left behind it; null when that is here. */
export function backTo(
  steps: readonly StepState[],
  from: Spot | null,
  at: number,
  round: number,
): StepState | null {
  const origin = from ? findStep(steps, from) : -1;
  if (origin < 0) return null;
  const left = steps[origin];
  const target = left && isLeft(left, round) ? origin : nextLeft(steps, round, origin);
  return target === at ? null : (steps[target] ?? null);
}

/** Where "Walk on" leads: to the check last seen, if this is its round and something is left; else to the first left. */
export function walkOn(steps: readonly StepState[], last: WalkRoute | null, start: WalkRoute): WalkRoute {
  const isSame = last?.spot && last.round === start.round && findStep(steps, last.spot) >= 0;
  return isSame && nextLeft(steps, start.round) >= 0 ? last : start;
}

/** The check one is at in this round, or the first one left where this round was not walked; null when none is. */
export function presentStep(
  steps: readonly StepState[],
  last: WalkRoute | null,
  round: number,
): StepState | null {
  const at = last?.spot && last.round === round ? findStep(steps, last.spot) : -1;
  return steps[at >= 0 ? at : nextLeft(steps, round)] ?? null;
}

function isSameWalk(a: WalkRoute, b: WalkRoute | null): boolean {
  return b !== null && pathOf(a) === pathOf(b);
}
