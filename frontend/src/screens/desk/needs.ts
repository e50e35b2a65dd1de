/** What a card still asks of the people: counted, so that the desk can say it in a line and list it in full. */
import type { CardState, Proposal, StepOutcome, StepState } from "../../journal/types";
import type { Grade } from "../../measure/book";

export type Need = "disagreements" | "proposals" | "tooClose" | "open" | "complaints" | "photos";
export type Needs = Record<Need, number>;
/** A step in one round. */
export type Reading = { step: StepState; round: number; outcome: StepOutcome };

const GRADE_ORDER: readonly Grade[] = ["advice", "minor", "major", "dangerous"];

/** Every step of every round that says something, checklist by checklist in walking order. */
export function readings(state: CardState): Reading[] {
  return state.checklists.flatMap((list) =>
    list.steps.flatMap((step) => step.rounds.map((outcome, at) => ({ step, round: at + 1, outcome }))),
  );
}

/** The steps of one state, as found and after work. */
export function stepsThatAre(state: CardState, what: StepOutcome["state"]): Reading[] {
  return readings(state).filter((one) => one.outcome.state === what);
}

/** Steps of the first round that nobody has answered or skipped with a reason. */
export function openSteps(state: CardState): Reading[] {
  return stepsThatAre(state, "open").filter(
    (one) => one.round === 1 && one.step.step.check.answer.kind !== "worked-out",
  );
}

/** photosWaiting: how many photos the server has named as not held. */
export function needsOf(state: CardState, photosWaiting: number): Needs {
  return {
    disagreements: state.disagreements.length,
    proposals: state.proposals.length,
    tooClose: stepsThatAre(state, "too-close").length,
    open: openSteps(state).length,
    complaints: state.complaints.filter((one) => one.outcome === null).length,
    photos: photosWaiting,
  };
}

/** The worst grade among the findings, or null when there is none. */
export function worstGrade(state: CardState): Grade | null {
  const grades = state.findings.map((finding) => finding.entry.body.grade);
  return [...GRADE_ORDER].reverse().find((grade) => grades.includes(grade)) ?? null;
}

/** What a limit or an option proposes, in the order of the findings: the worst first. */
export function worstFirst(proposals: readonly Proposal[]): Proposal[] {
  const rank = ({ outcome: { grade } }: Proposal) => (grade ? GRADE_ORDER.indexOf(grade) : -1);
  return [...proposals].sort((a, b) => rank(b) - rank(a));
}

export type Group = "handed-in" | "walking" | "signed";

/** Which part of the desk's list a card belongs to. */
export function groupOf(state: CardState): Group {
  const { stage } = state;
  if (stage.is === "handed-in" || stage.is === "disagreement") return "handed-in";
  if (stage.is === "signed") return stage.changedSince ? "walking" : "signed";
  return "walking";
}

/** Since when a card waits for the desk: the id of the entry that handed it in, which sorts by time. */
export function waitingSince({ stage }: CardState): string {
  if (stage.is === "disagreement") return stage.standing[0]?.id ?? "";
  return "entry" in stage ? stage.entry.id : "";
}

/** Steps that were answered again after work. */
export function recheckedSteps(state: CardState): StepState[] {
  return state.checklists
    .flatMap((list) => list.steps)
    .filter(({ rounds }) => rounds.slice(1).some((outcome) => outcome.standing.length > 0));
}

/** A limit of the maker's for which no figure has been typed: what it judges is recorded only. */
export type UnknownLimit = { key: string; ask: string; unit: string; steps: StepState[] };

/** Only those that something recorded would be held against. */
export function unknownLimits(state: CardState): UnknownLimit[] {
  const found = new Map<string, UnknownLimit>();
  for (const step of state.checklists.flatMap((list) => list.steps)) {
    if (!step.rounds.some((outcome) => outcome.value !== null || outcome.standing.length > 0)) continue;
    for (const { maker, unit } of step.step.check.limits) {
      if (!maker || state.facts.has(`vehicle/maker/${maker.key}`)) continue;
      const limit = found.get(maker.key) ?? { key: maker.key, ask: maker.ask, unit, steps: [] };
      if (!limit.steps.includes(step)) limit.steps.push(step);
      found.set(maker.key, limit);
    }
  }
  return [...found.values()];
}

/** The newest entry's id: UUIDv7 sorts by the time it was made. */
export function newest(state: CardState): string {
  return state.entries.reduce((last, entry) => (entry.id > last ? entry.id : last), "");
}
