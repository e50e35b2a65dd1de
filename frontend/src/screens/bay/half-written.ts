/** What was typed on this phone and is no entry yet: of which kind, about what, and where it is finished. */
import type { CardState, StepState } from "../../journal/types";
import { EVERYTHING, type Route } from "../route";
import { asRun } from "./answers/run-clock";
import { noteKey } from "./note";
import type { BayKey } from "./say";
import { formatNumber } from "../../words/words";
import { factText } from "./vehicle";
import { spotOf } from "./walk-order";

export type HalfWritten = { key: string; kind: BayKey; about: string; words: string; route: Route };
type Found = Omit<HalfWritten, "key">;
type Parts = Partial<Record<string, unknown>>;
type Place = { card: string; state: CardState };

/** `drafts`: everything kept under the card's id and under its notes, by key. */
export function halfWritten(drafts: Record<string, unknown>, state: CardState, card: string): HalfWritten[] {
  return Object.entries(drafts).flatMap(([key, draft]) => {
    const notes = noteKey(card, "");
    const found = key.startsWith(notes)
      ? ofCheck(key.slice(notes.length), "note", draft, { card, state })
      : ofSlot(key.slice(card.length + 1), draft, { card, state });
    return found ? [{ key, ...found }] : [];
  });
}

function ofSlot(slot: string, draft: unknown, place: Place): Found | null {
  const { card } = place;
  const [first, second = ""] = slot.split("/");
  if (second === "begun") return null; // names the last one begun, whether anything was typed or not
  const words = textIn(draft);
  switch (first) {
    case "finding":
      return ofFinding(slot, draft, place);
    case "work":
      return ofWork(second, parts(draft), place);
    case "stage":
      return words === "" ? null : found("hand-in-words", "", words, { at: "hand-in", card });
    case "card":
      return second === "complaint" ? ofComplaint(slot, draft, place) : ofFact(slot, words, place);
    case "vehicle":
    case "customer":
      return ofFact(slot, words, place);
    default:
      return ofCheck(slot, "answer", draft, place);
  }
}

function ofFinding(slot: string, draft: unknown, { card, state }: Place): Found | null {
  const [at, isDeclined] = slot.split(/\/declined$/);
  if (isDeclined !== undefined && at !== undefined)
    return textIn(draft) === ""
      ? null
      : found("decline", checkOf(at, state), textIn(draft), { at: "findings", card });
  const { title, plain, note, photos } = parts(draft);
  const words = [title, plain, note].map(textIn).filter(Boolean);
  if (words.length === 0 && !(Array.isArray(photos) && photos.length > 0)) return null;
  return found("finding", checkOf(slot, state), words[0] ?? "", { at: "finding", card, slot });
}

function ofWork(work: string, draft: Parts, { card }: Place): Found | null {
  const { words, torque, improvised, half, parts: all } = draft;
  const typed = [words, torque, improvised, parts(half)["name"]].map(textIn).filter(Boolean);
  if (typed.length === 0 && !(Array.isArray(all) && all.length > 0)) return null;
  return found("work-done", "", typed[0] ?? "", { at: "work", card, work });
}

function ofComplaint(slot: string, draft: unknown, { card, state }: Place): Found | null {
  const [, , id = "", outcome] = slot.split("/");
  if (outcome === undefined)
    return textIn(draft) === "" ? null : found("complaint", "", textIn(draft), { at: "book-in", card });
  const complaint = state.complaints.find((one) => one.id === id);
  const { words, outcome: said } = parts(draft);
  if (!complaint || (textIn(words) === "" && !textIn(said))) return null;
  return found("outcome", complaint.words, textIn(words), { at: "complaint", card, complaint: id });
}

/** A field of the booking-in whose text could not be kept as it is. */
function ofFact(slot: string, words: string, { card, state }: Place): Found | null {
  if (words === "" || words === factText(state, slot)) return null;
  return found("book-in", "", words, { at: "book-in", card });
}

/** slot: of the check, perhaps with what kind of draft it is behind it. */
function ofCheck(
  slot: string,
  kind: "note" | "answer",
  draft: unknown,
  { card, state }: Place,
): Found | null {
  const [checklist, check, position, round = "", behind] = slot.split("/");
  const step = stepsOf(state).find(
    ({ step: one }) => one.checklist === checklist && one.check.id === check && one.place.id === position,
  );
  if (!step) return null;
  const standing = state.standing.get(`${checklist}/${check}/${position}/${round}`) ?? [];
  const route: Route = { at: "walk", card, round: Number(round), scope: EVERYTHING, spot: spotOf(step) };
  const about = aboutStep(step);
  const words = textIn(draft);
  if (kind === "note") return words === "" ? null : found("note-words", about, words, route);
  if (behind === "why-not") {
    // who answered it after all has no reason left to give
    const isAnswered = standing.some((entry) => entry.kind === "answer");
    return isAnswered || words === "" ? null : found("could-not-check", about, words, route);
  }
  const typed = answerIn(draft, step);
  const [stood] = standing;
  const isKept = stood?.kind === "answer" && stood.body.is === "text" && stood.body.words === typed;
  return typed === null || isKept ? null : found("half-answer", about, typed, route);
}

/** What was typed of an answer; null when nothing was. */
function answerIn(draft: unknown, { step }: StepState): string | null {
  const list = (values: unknown[], between: string) =>
    values.map(textIn).filter(Boolean).join(between) || null;
  switch (step.check.answer.kind) {
    case "number": {
      const { typed, repeats } = parts(draft);
      return list([...(Array.isArray(repeats) ? repeats : []), typed], "  ");
    }
    case "spread":
      return list(
        step.check.answer.points.map((point) => parts(draft)[point.id]),
        " / ",
      );
    case "run": {
      const run = asRun(draft);
      return run && run.watch.started_at !== null ? run.typed : null;
    }
    case "codes":
      return list(Array.isArray(draft) ? draft : [draft], ", ");
    default:
      return list([draft], "");
  }
}

/** The check behind the slot of a finding; "" for one by hand. */
function checkOf(slot: string, state: CardState): string {
  const step = stepsOf(state).find(
    ({ step: one }) => slot === `finding/at/${one.checklist}/${one.check.id}/${one.place.id}`,
  );
  return step ? aboutStep(step) : "";
}

function aboutStep({ step: { check, place } }: StepState): string {
  return `${place.title} · ${check.ask}`;
}

function stepsOf(state: CardState): StepState[] {
  return state.checklists.flatMap((one) => one.steps);
}

function found(kind: BayKey, about: string, words: string, route: Route): Found {
  return { kind, about, words, route };
}

function parts(draft: unknown): Parts {
  return typeof draft === "object" && draft !== null ? { ...draft } : {};
}

function textIn(value: unknown): string {
  if (typeof value === "number") return formatNumber(value);
  return typeof value === "string" ? value.trim() : "";
}
