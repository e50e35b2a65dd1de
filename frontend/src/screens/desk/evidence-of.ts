/** Which step, and which photos and sounds, belong to what. */
import type { CardState, EntryOf, Finding, StepState } from "../../journal/types";

/** The step a finding is about (checklist/check/position), or null when it was written by hand. */
export function stepAbout(state: CardState, about: string | null): StepState | null {
  if (about === null) return null;
  for (const list of state.checklists) {
    const found = list.steps.find(
      ({ step }) => `${step.checklist}/${step.check.id}/${step.place.id}` === about,
    );
    if (found) return found;
  }
  return null;
}

/** The step of a slot with its round. */
export function stepOfSlot(state: CardState, slot: string): StepState | null {
  return stepAbout(state, slot.slice(0, slot.lastIndexOf("/"))) ?? stepAbout(state, slot);
}

/** "How deep is the tread, Front left": the question with the place, where there is more than one. */
export function stepName({ step }: Pick<StepState, "step">): string {
  return step.check.at.length > 1 ? `${step.check.ask} (${step.place.title})` : step.check.ask;
}

type Media = EntryOf<"photo"> | EntryOf<"sound">;

/** Those the finding names, those about it, and those of its check. */
export function mediaOf<M extends Media>(all: readonly M[], { entry }: Finding): M[] {
  const { photos, about } = entry.body;
  return all.filter(
    (one) =>
      photos.includes(one.slot.split("/")[1] ?? "") ||
      (about !== null && (one.body.about === about || one.body.about?.startsWith(`${about}/`) === true)) ||
      one.body.about === entry.slot,
  );
}

/** Those that no finding shows. */
export function otherMedia<M extends Media>(all: readonly M[], state: CardState): M[] {
  const shown = new Set(state.findings.flatMap((finding) => mediaOf(all, finding)).map(({ id }) => id));
  return all.filter(({ id }) => !shown.has(id));
}
