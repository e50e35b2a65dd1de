/** Which mark and which word an outcome or a grade gets. */
import type { StepOutcome } from "../../journal/types";
import type { Grade } from "../../measure/book";
import { Mark, type MarkShape } from "../../ui/mark";
import { say } from "./say";

const GRADE_SHAPE: Record<Grade, MarkShape> = { advice: 0, minor: 1, major: 2, dangerous: 3 };
const STATE_SHAPE: Record<StepOutcome["state"], MarkShape> = {
  open: "dashed",
  recorded: "dot",
  "in-order": "line",
  beyond: 0,
  "too-close": "tilde",
  "not-checked": "hollow",
  disagreement: "two",
  "not-asked": "hollow",
};

export const GRADES: readonly Grade[] = ["advice", "minor", "major", "dangerous"];

export function gradeShape(grade: Grade): MarkShape {
  return GRADE_SHAPE[grade];
}

export function GradeMark({ grade }: { grade: Grade }) {
  return <Mark shape={GRADE_SHAPE[grade]} word={say(`grade-${grade}`)} />;
}

/** The state of a step; beyond a limit it shows the grade's bars. */
export function OutcomeMark({ outcome }: { outcome: StepOutcome }) {
  const { state, grade } = outcome;
  if (state === "beyond" && grade) return <GradeMark grade={grade} />;
  return <Mark shape={STATE_SHAPE[state]} word={say(`state-${state}`)} />;
}

/** The state in words only, for the undo bar. */
export function outcomeWord({ state, grade }: StepOutcome): string {
  return state === "beyond" && grade ? say(`grade-${grade}`) : say(`state-${state}`);
}
