/** A card's state, computed from its entries and the book by pure functions. */
import type { Book } from "../measure/book";
import { checklistState, chosenOf, roundOf, type ChecklistOf } from "./checklists";
import { complaintsOf } from "./complaints";
import { declinedOf, findingsOf, isOfKind, proposalsOf, standingOfKind } from "./findings";
import { stageOf } from "./stage";
import { disagreements, standing as standingOf } from "./standing";
import type { CardState, ChecklistState, Entry, FactBody, Standing } from "./types";

/**
 * Everything computed from the entries of one card.
 *
 * checklistOf finds any published version of a checklist; without it only those of the book are known.
 */
export function cardState(
  entries: readonly Entry[],
  book: Book,
  checklistOf: ChecklistOf = within(book),
): CardState {
  const standing = standingOf(entries);
  const { checklists: chosen, missing } = chosenOf(standing, checklistOf);
  const checklists = chosen.map((checklist) => checklistState(standing, checklist, book));
  const findings = findingsOf(standing);
  const work = standingOfKind(standing, "work-done");
  return {
    card: entries[0]?.card ?? "",
    entries,
    standing,
    facts: factsOf(standing),
    complaints: complaintsOf(standing, findings),
    checklists,
    findings,
    proposals: proposalsOf(checklists, standing),
    declined: declinedOf(standing),
    notChecked: notCheckedOf(checklists),
    photos: standingOfKind(standing, "photo"),
    sounds: standingOfKind(standing, "sound"),
    work,
    stage: stageOf(standing, entries),
    disagreements: disagreements(standing),
    missingChecklists: missing,
    round: roundOf(standing, work.length > 0),
  };
}

/** Looks a version up among the checklists of a book. */
export function within(book: Book): ChecklistOf {
  return (id, version) => book.checklists.find((one) => one.id === id && one.version === version);
}

/** slot -> the fact standing in it; where two disagree the older one, and the slot is among the disagreements. */
function factsOf(standing: Standing): Map<string, FactBody> {
  const facts = new Map<string, FactBody>();
  for (const [slot, entries] of standing) {
    const entry = entries.find((one) => isOfKind(one, "fact"));
    if (entry) facts.set(slot, entry.body);
  }
  return facts;
}

function notCheckedOf(checklists: readonly ChecklistState[]): CardState["notChecked"] {
  return checklists.flatMap(({ steps }) =>
    steps.flatMap(({ step, rounds }) =>
      rounds.flatMap((outcome, before) =>
        outcome.standing
          .filter((entry) => isOfKind(entry, "not-checked"))
          .map((entry) => ({ step, round: before + 1, entry })),
      ),
    ),
  );
}
