/** Findings, worst first, with what was agreed and done; and those that a limit or an option proposes. */
import { GRADE_RANK } from "./grades";
import { findingSlotFor } from "./slots";
import type { ChecklistState, Entry, EntryOf, Finding, Kind, Proposal, Standing, StepState } from "./types";

/** Entries of one kind that stand, oldest id first. */
export function standingOfKind<K extends Kind>(standing: Standing, kind: K): EntryOf<K>[] {
  const found: EntryOf<K>[] = [];
  for (const entries of standing.values())
    for (const entry of entries) if (isOfKind(entry, kind)) found.push(entry);
  return found.sort(byId);
}

/** Oldest id first. */
export function byId(a: { id: string }, b: { id: string }): number {
  return a.id < b.id ? -1 : 1;
}

/** Narrows an entry by its kind. */
export function isOfKind<K extends Kind>(entry: Entry, kind: K): entry is EntryOf<K> & Entry {
  return entry.kind === kind;
}

/** One finding for each slot in which one stands; of two written apart the worse one speaks. Worst first, then oldest. */
export function findingsOf(standing: Standing): Finding[] {
  const work = standingOfKind(standing, "work-done");
  const findings: Finding[] = [];
  for (const [slot, entries] of standing) {
    const [entry] = entries.filter((one) => isOfKind(one, "finding")).sort(worstFirst);
    if (!entry) continue;
    const done = work.filter((one) => one.body.findings.includes(slot));
    findings.push({ slot, entry, standing: entries, agreed: agreedOn(standing, slot), work: done });
  }
  return findings.sort((a, b) => worstFirst(a.entry, b.entry));
}

function worstFirst(a: EntryOf<"finding">, b: EntryOf<"finding">): number {
  return GRADE_RANK[a.body.grade] - GRADE_RANK[b.body.grade] || byId(a, b);
}

/** What the customer answered; null when nothing stands or two answers disagree. */
function agreedOn(standing: Standing, finding: string): EntryOf<"agreed"> | null {
  const entries = standing.get(`agreed/${finding}`) ?? [];
  const [entry] = entries;
  return entries.length === 1 && entry && isOfKind(entry, "agreed") ? entry : null;
}

/** Proposals that stand declined, where no finding stands beside them. */
export function declinedOf(standing: Standing): EntryOf<"finding-declined">[] {
  return standingOfKind(standing, "finding-declined").filter(
    ({ slot }) => !standing.get(slot)?.some((one) => one.kind === "finding"),
  );
}

/** Steps beyond a limit whose finding nobody has accepted or declined; the latest such round of each. */
export function proposalsOf(checklists: readonly ChecklistState[], standing: Standing): Proposal[] {
  return checklists.flatMap(({ checklist, steps }) => {
    const at = new Map(steps.map((state) => [`${state.step.check.id}/${state.step.place.id}`, state]));
    return steps.flatMap((state) => {
      const { check, place } = state.step;
      const slot = findingSlotFor(checklist.id, check.id, place.id);
      const round = beyondIn(state);
      const outcome = state.rounds[round - 1];
      if (!outcome || isAnswered(standing, slot)) return [];
      const pair = at.get(`${check.id}/${place.pair ?? ""}`);
      if (pair && isOfThePair(state, pair, round)) return [];
      return [{ slot, step: state.step, round, outcome }];
    });
  });
}

function beyondIn({ rounds }: StepState): number {
  return rounds.findLastIndex((outcome) => outcome.state === "beyond") + 1;
}

function isAnswered(standing: Standing, slot: string): boolean {
  const entries = standing.get(slot) ?? [];
  return entries.some((entry) => entry.kind === "finding" || entry.kind === "finding-declined");
}

/** A difference between the sides is proposed once, at the side that comes first in the check. */
function isOfThePair(state: StepState, pair: StepState, round: number): boolean {
  const because = state.rounds[round - 1]?.because ?? null;
  const limit = state.step.check.limits.find((one) => one.id === because);
  const isSecond =
    state.step.check.at.indexOf(pair.step.place.id) < state.step.check.at.indexOf(state.step.place.id);
  const sameThere = pair.rounds.some((outcome) => outcome.state === "beyond" && outcome.because === because);
  return limit?.of === "side-difference" && isSecond && sameThere;
}
