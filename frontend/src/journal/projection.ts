/** For the tests: the part of a card's state that both languages must compute alike, as plain JSON. */
import type { CardState, ChecklistState, Finding, Stage, StepOutcome } from "./types";

const ids = (entries: readonly { id: string }[]) => entries.map(({ id }) => id);

/** The card's state with entries by their id; the same keys as the server's projection. */
export function project(state: CardState): Record<string, unknown> {
  return {
    card: state.card,
    round: state.round,
    stage: stage(state.stage),
    facts: Object.fromEntries([...state.facts].map(([slot, { value }]) => [slot, value])),
    complaints: state.complaints.map((one) => [one.id, one.words, one.outcome?.id ?? null, one.findings]),
    checklists: state.checklists.map(checklist),
    findings: state.findings.map(finding),
    proposals: state.proposals.map(({ slot, round, outcome }) => [
      slot,
      round,
      outcome.because,
      outcome.grade,
    ]),
    declined: ids(state.declined),
    not_checked: state.notChecked.map(({ step, round, entry }) => [
      step.check.id,
      step.place.id,
      round,
      entry.id,
    ]),
    photos: ids(state.photos),
    sounds: ids(state.sounds),
    work: ids(state.work),
    disagreements: state.disagreements,
    missing: state.missingChecklists.map(({ id, version }) => [id, version]),
  };
}

function stage(stage: Stage): Record<string, unknown> {
  return {
    is: stage.is,
    entry: "entry" in stage ? stage.entry.id : null,
    changed_since: stage.is === "signed" && stage.changedSince,
    standing: stage.is === "disagreement" ? ids(stage.standing) : [],
  };
}

function finding({ slot, entry, standing, agreed, work }: Finding): Record<string, unknown> {
  return {
    slot,
    entry: entry.id,
    grade: entry.body.grade,
    standing: ids(standing),
    agreed: agreed?.id ?? null,
    work: ids(work),
  };
}

function checklist(state: ChecklistState): Record<string, unknown> {
  return {
    id: state.checklist.id,
    version: state.checklist.version,
    open: state.open,
    done: state.done,
    steps: state.steps.map(({ step, rounds }) => ({
      station: step.station.id,
      rounds: rounds.map(outcomeJson),
    })),
  };
}

/** An outcome without what is empty, so that the vectors stay readable. */
export function outcomeJson(outcome: StepOutcome): Record<string, unknown> {
  const full = {
    ...outcome,
    standing: ids(outcome.standing),
    own: ownJson(outcome),
    limits: outcome.limits.map(({ limit, state, bound }) => [limit.id, state, bound]),
  };
  const isEmpty = (value: unknown) => value === null || (Array.isArray(value) && value.length === 0);
  return Object.fromEntries(Object.entries(full).filter(([, value]) => !isEmpty(value)));
}

/** The step's own number, where the judged one is another. */
function ownJson({ own, value, u, unit }: StepOutcome): unknown[] | null {
  if (!own || (own.value === value && own.u === u && own.unit === unit)) return null;
  return [own.value, own.u, own.unit];
}
