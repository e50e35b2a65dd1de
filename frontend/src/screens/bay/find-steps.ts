/** Finds checks by word, wherever the word stands: question, how-to, place, station or checklist. */
import type { CardState, StepState } from "../../journal/types";

/** Steps that hold every word of `wanted`, parts of words and small letters included; all steps when nothing is asked. */
export function findSteps(steps: readonly StepState[], wanted: string, state: CardState): StepState[] {
  const words = plain(wanted).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [...steps];
  const titles = new Map(state.checklists.map((one) => [one.checklist.id, one.checklist.title]));
  return steps.filter((step) => {
    const text = plain(textOf(step, titles.get(step.step.checklist) ?? ""));
    return words.every((word) => text.includes(word));
  });
}

function textOf({ step: { check, place, station } }: StepState, checklist: string): string {
  const points = check.answer.kind === "spread" ? check.answer.points.map((point) => point.label) : [];
  const options = check.answer.kind === "choice" ? check.answer.options.map((option) => option.label) : [];
  return [check.ask, place.title, station.title, checklist, ...check.how, ...points, ...options].join(" ");
}

/** Small letters without their accents. */
function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
