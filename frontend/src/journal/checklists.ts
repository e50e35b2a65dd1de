/** The checklists chosen for a card, with every step in every round. */
import type { Book, Checklist } from "../measure/book";
import { isOfKind } from "./findings";
import { cardRecords, recordsOf, type Records } from "./records";
import { steps } from "./steps";
import type { ChecklistState, Entry, Standing, Step, StepOutcome } from "./types";
import { outcomeIn } from "./verdicts";

/** Finds a published version of a checklist; undefined or null when it is not held. */
export type ChecklistOf = (id: string, version: number) => Checklist | null | undefined;
export type Chosen = { checklists: Checklist[]; missing: { id: string; version: number }[] };

/** The pinned versions, by checklist id; of two that disagree the higher one. One with another hash is missing. */
export function chosenOf(standing: Standing, checklistOf: ChecklistOf): Chosen {
  const chosen: Chosen = { checklists: [], missing: [] };
  for (const [slot, entries] of standing) {
    const [pinned] = entries
      .filter((entry) => isOfKind(entry, "checklist-chosen"))
      .sort((a, b) => b.body.version - a.body.version);
    if (!pinned) continue;
    const id = slot.slice("card/checklist/".length);
    const { version, sha256 } = pinned.body;
    const found = checklistOf(id, version);
    if (found?.sha256 === sha256) chosen.checklists.push(found);
    else chosen.missing.push({ id, version });
  }
  return chosen;
}

const kept = new WeakMap<Checklist, { book: Book; basis: readonly Entry[]; state: ChecklistState }>();

/**
 * The state of one checklist: its steps in walking order, each with its rounds.
 *
 * A tap changes one checklist. The last state of each is kept, and given again while the entries it rests on are the same.
 */
export function checklistState(standing: Standing, checklist: Checklist, book: Book): ChecklistState {
  const records = cardRecords(standing);
  const basis = [...(records.basis.get(checklist.id) ?? []), ...records.facts];
  const before = kept.get(checklist);
  if (before?.book === book && isSame(before.basis, basis)) return before.state;
  const state = freshState(standing, checklist, book);
  kept.set(checklist, { book, basis, state });
  return state;
}

function isSame(some: readonly Entry[], others: readonly Entry[]): boolean {
  return some.length === others.length && some.every((entry, place) => entry === others[place]);
}

function freshState(standing: Standing, checklist: Checklist, book: Book): ChecklistState {
  const records = recordsOf(standing, checklist, book);
  const states = steps(checklist, book).map((step) => ({ step, rounds: roundsOf(step, records) }));
  const firsts = states
    .filter(({ step }) => step.check.answer.kind !== "worked-out")
    .map(({ rounds }) => rounds[0]?.state);
  const open = firsts.filter((state) => state === "open" || state === "disagreement").length;
  const skipped = firsts.filter((state) => state === "not-asked").length;
  return { checklist, steps: states, open, done: firsts.length - open - skipped };
}

/** As found first; later rounds up to the last one in which anything is known. */
function roundsOf(step: Step, records: Records): StepOutcome[] {
  const rounds = Array.from({ length: records.top }, (_, before) => outcomeIn(step, before + 1, records));
  const last = rounds.findLastIndex(({ state, standing }) => standing.length > 0 || !isBlank(state));
  return rounds.slice(0, Math.max(1, last + 1));
}

function isBlank(state: StepOutcome["state"]): boolean {
  return state === "open" || state === "not-asked";
}

/** The round new answers belong to: 1 until work was recorded, then 2 or the highest any answer is in. */
export function roundOf(standing: Standing, workWasDone: boolean): number {
  return workWasDone ? Math.max(2, ...cardRecords(standing).tops.values()) : 1;
}
