/** Which control answers a check. */
import type { Answer, CardState, Entry, StepOutcome, StepState } from "../../../journal/types";
import { lazily } from "../../../ui/lazily";
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
  /** typed before the answer, or standing with it; "" for none */
  note: string;
  onKept: (entry: Entry, before: Entry | null) => void;
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

/** Keeps an answer, with the note typed before it, and tells the screen. */
export async function keepAnswer(
  { card, outcome, note, onKept }: AnswerProps,
  answer: Answer,
): Promise<boolean> {
  const before = card.standing(outcome.slot);
  const entry = await card.keep("answer", outcome.slot, note ? { ...answer, note } : answer);
  if (!entry) return false;
  onKept(entry, before);
  return true;
}
