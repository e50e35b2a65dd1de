/** The words a caption is picked from: where, what was asked, and what it may be called. */
import type { CardState, StepState } from "../../journal/types";

const LONGEST = 16;
/** Words this short name nothing. */
const SHORTEST_WORD = 4;

/** At most 16, most telling first, none twice. Without a check: the stations of the walk. */
export function captionWords(step: StepState | null, stations: readonly string[]): string[] {
  const words = step === null ? stations : wordsOf(step);
  return [...new Set(words.map((word) => word.trim()).filter(Boolean))].slice(0, LONGEST);
}

function wordsOf({ step: { check, place, station } }: StepState): string[] {
  const options =
    check.answer.kind === "choice" ? check.answer.options.map((one) => one.title ?? one.label) : [];
  const points = check.answer.kind === "spread" ? check.answer.points.map((one) => one.label) : [];
  const asked = check.ask.split(/[^\p{L}\p{N}'-]+/u).filter((word) => word.length >= SHORTEST_WORD);
  return [
    place.title,
    ...check.limits.map((limit) => limit.title),
    ...options,
    ...points,
    station.title,
    ...asked,
  ];
}

/** The step a slot is about, in any round; null when it is about none. */
export function stepOf(state: CardState, about: string | null): StepState | null {
  const [checklist, check, place] = about?.split("/") ?? [];
  for (const list of state.checklists)
    for (const one of list.steps)
      if (one.step.checklist === checklist && one.step.check.id === check && one.step.place.id === place)
        return one;
  return null;
}

/** The caption with a word put at its end, or taken out when it is in it. */
export function toggleWord(caption: string, word: string): string {
  const parts = caption.split(", ").filter(Boolean);
  return (parts.includes(word) ? parts.filter((part) => part !== word) : [...parts, word]).join(", ");
}
