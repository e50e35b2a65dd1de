/** What is known of one step in one round. */
import type { Book, Checklist, Option } from "../measure/book";
import { deciding, judgeLimits, settling, type Judged, type Subject } from "./limits";
import { isNumeric, readingOf, type Reading } from "./reading";
import { answerUpTo, positionOf, recordsOf, type Records } from "./records";
import { checkSlot } from "./slots";
import type { Answer, Standing, Step, StepOutcome } from "./types";
import { workedOut } from "./worked";

/** What is known of a step in a round (1 = as found), from what stands on the card. */
export function outcomeOf(
  step: Step,
  round: number,
  standing: Standing,
  checklist: Checklist,
  book: Book,
): StepOutcome {
  return outcomeIn(step, round, recordsOf(standing, checklist, book));
}

/** `outcomeOf` with the records of the checklist at hand. */
export function outcomeIn(step: Step, round: number, records: Records): StepOutcome {
  const open = nothing(step, round);
  const standing = records.standing.get(open.slot) ?? [];
  const [entry] = standing;
  if (standing.length > 1) return { ...open, state: "disagreement", standing };
  if (entry?.kind === "not-checked") return { ...open, state: "not-checked", standing };
  if (entry?.kind === "answer")
    return answered({ step, round, answer: entry.body, worked: null }, { ...open, standing }, records);
  return unanswered(step, round, { ...open, standing }, records);
}

/** A step of which nothing is known. */
export function nothing(step: Step, round: number): StepOutcome {
  return {
    slot: checkSlot(step.checklist, step.check.id, step.place.id, round),
    state: "open",
    standing: [],
    value: null,
    u: null,
    unit: null,
    own: null,
    lacks: [],
    limits: [],
    grade: null,
    title: null,
    plain: null,
    because: null,
    settle: null,
  };
}

/** A step without an entry of its own: answered by photos or sounds, worked out, not asked, or open. */
function unanswered(step: Step, round: number, open: StepOutcome, records: Records): StepOutcome {
  const spec = step.check.answer;
  if (spec.kind === "photo" || spec.kind === "sound") {
    const about = (records.media.get(open.slot) ?? []).filter((entry) => entry.kind === spec.kind);
    if (about.length >= (spec.kind === "photo" ? spec.least : 1))
      return { ...open, state: "recorded", standing: about };
  }
  if (!isAsked(step, round, records)) return { ...open, state: "not-asked" };
  return spec.kind === "worked-out" ? computed(step, round, open, records) : open;
}

function isAsked(step: Step, round: number, records: Records): boolean {
  const condition = step.check.only_if;
  if (!condition) return true;
  const other = records.checks.get(condition.check);
  const at = other ? positionOf(other, step.place.id) : step.place.id;
  const found = answerUpTo(records, condition.check, at, round);
  return found?.answer.is === "choice" && condition.is.includes(found.answer.choice);
}

/** In rounds after the first a worked-out answer stays open until an input was read again. */
function computed(step: Step, round: number, open: StepOutcome, records: Records): StepOutcome {
  const { reading, lacks, newest } = workedOut(step.check, step.place.id, round, records);
  if (round > 1 && newest < round) return open;
  if (!reading) return { ...open, lacks };
  return measured({ step, round, answer: null, worked: reading }, reading, open, records);
}

function answered(subject: Subject, open: StepOutcome, records: Records): StepOutcome {
  const answer = subject.answer;
  const spec = subject.step.check.answer;
  if (answer?.is === "choice" && spec.kind === "choice")
    return chosen(
      spec.options.find((option) => option.id === answer.choice),
      open,
    );
  if (!answer || !isNumeric(answer)) return { ...open, state: "recorded" };
  return measured(subject, plainReading(answer, records), open, records);
}

function chosen(option: Option | undefined, open: StepOutcome): StepOutcome {
  if (option?.means !== "beyond") return { ...open, state: option?.means ?? "recorded" };
  return {
    ...open,
    state: "beyond",
    grade: option.grade ?? "minor",
    title: option.title ?? option.label,
    plain: option.plain ?? null,
    because: option.id,
  };
}

function measured(subject: Subject, plain: Reading | null, open: StepOutcome, records: Records): StepOutcome {
  const limits = judgeLimits(subject, records);
  const decided = deciding(limits);
  const reading = decided?.reading ?? limits.find((one) => one.reading)?.reading ?? plain;
  const outcome: StepOutcome = {
    ...open,
    state: decided ? stateOf(decided) : "recorded",
    value: reading?.value ?? null,
    u: reading?.u ?? null,
    unit: reading?.unit ?? null,
    own: plain,
    limits: limits.map(({ limit, state, bound }) => ({ limit, state, bound })),
  };
  if (!decided || decided.state === "in-order") return outcome;
  const { grade, title, plain: words, id } = decided.limit;
  const settle = decided.state === "too-close" ? settling(decided, subject, records) : null;
  return { ...outcome, grade, title, plain: words, because: id, settle };
}

function stateOf({ state }: Judged): StepOutcome["state"] {
  return state === "unknown" ? "recorded" : state;
}

/** The number shown for an answer that no limit decides. */
function plainReading(answer: Answer, { book, units }: Records): Reading | null {
  if (!isNumeric(answer)) return null;
  return readingOf(answer, answer.is === "spread" ? "mean" : "value", book.instruments, units);
}
