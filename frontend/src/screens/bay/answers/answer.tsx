/** Which control answers a check. */
import type { Answer, CardState, StepOutcome, StepState } from "../../../journal/types";
import { lazily } from "../../../ui/lazily";
import type { By, OnKept, OnLeaving } from "../keeping";
import type { Note } from "../note";
import type { OpenCard } from "../open-card";
import { ChoiceAnswer } from "./choice";
import { CodesAnswer } from "./codes";
import { NumberAnswer } from "./number";
import { PhotoAnswer } from "./photo";
import { RunAnswer } from "./run";
import { SpreadAnswer } from "./spread";
import { TextAnswer } from "./text";
import { WorkedOut } from "./worked-out";

const SoundAnswer = lazily(() => import("./sound").then((file) => file.SoundAnswer));

export type AnswerProps = {
  card: OpenCard;
  state: CardState;
  step: StepState;
  round: number;
  outcome: StepOutcome;
  /** typed before the answer, or standing with it */
  note: Note;
  onKept: OnKept;
  onLeaving: OnLeaving;
};

export function AnswerControl(props: AnswerProps) {
  const spec = props.step.step.check.answer;
  switch (spec.kind) {
    case "choice":
      return <ChoiceAnswer {...props} spec={spec} />;
    case "number":
      return <NumberAnswer {...props} spec={spec} />;
    case "spread":
      return <SpreadAnswer {...props} spec={spec} />;
    case "run":
      return <RunAnswer {...props} spec={spec} />;
    case "codes":
      return <CodesAnswer {...props} />;
    case "text":
      return <TextAnswer {...props} />;
    case "photo":
      return <PhotoAnswer {...props} spec={spec} />;
    case "sound":
      return <SoundAnswer {...props} spec={spec} />;
    case "worked-out":
      return <WorkedOut {...props} spec={spec} />;
  }
}

/** The answer that stands, when exactly an answer does. */
export function answerOf(outcome: StepOutcome): Answer | null {
  const [entry] = outcome.standing;
  return entry?.kind === "answer" && outcome.standing.length === 1 ? entry.body : null;
}

/** Keeps an answer, with the note typed before it, and tells the screen; by leaving only one that is not the standing one. */
export async function keepAnswer(
  { card, outcome, note, onKept }: AnswerProps,
  answer: Answer,
  by: By = "tap",
): Promise<boolean> {
  const words = note.words();
  const body = words ? { ...answer, note: words } : answer;
  const kept = await card.amend(outcome.slot, ([stood, other]) =>
    by === "leaving" && !other && isSame(stood?.body, body) ? null : { kind: "answer", body },
  );
  if (kept === null) return false;
  note.carried(words);
  const again = words ? () => note.type(words) : undefined;
  if (kept !== "unchanged")
    onKept(kept.entry, kept.before, kept.before === null && again ? { by, again } : { by });
  return true;
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
