/** Any entry in a few words. */
import type { CardState, Entry, FactBody, NotCheckedReason } from "../../journal/types";
import { answerText, unitText } from "../bay/figures";
import { formatNumber } from "../../words/words";
import { say } from "../bay/say";
import { toldTitle } from "../bay/told-finding";
import { stepOfSlot } from "./evidence-of";
import { tell } from "./tell";

export function entryWords(entry: Entry, state: CardState): string {
  switch (entry.kind) {
    case "answer": {
      const step = stepOfSlot(state, entry.slot);
      return step ? answerText(entry.body, step.step.check.answer) : entry.body.is;
    }
    case "not-checked":
      return reasonText(entry.body);
    case "fact":
      return factWords(entry.body);
    case "finding":
      return `${toldTitle(state, entry.body)} (${say(`grade-${entry.body.grade}`)})`;
    case "agreed":
      return tell(`agreed-${entry.body.answer}`);
    case "complaint-outcome":
      return [tell(`outcome-${entry.body.outcome}`), entry.body.words].filter(Boolean).join(": ");
    case "signed-off":
      return tell("entry-signed-off", { n: entry.body.revision });
    case "photo":
    case "sound":
      return entry.body.caption || tell(`entry-${entry.kind}`);
    case "retraction":
    case "checklist-chosen":
      return tell(`entry-${entry.kind}`);
    case "finding-declined":
    case "handed-in":
    case "sent-back":
      return [tell(`entry-${entry.kind}`), entry.body.words].filter(Boolean).join(": ");
    case "complaint":
    case "work-done":
      return entry.body.words;
  }
}

/** Why a check was not made. */
export function reasonText({ reason, words }: { reason: NotCheckedReason; words: string }): string {
  const said = say(`reason-${reason}`).replace(/…$/, "");
  return words ? tell("because-reason", { reason: said, words }) : said;
}

/** A number with a unit is written as a person reads it; a year has none. */
function factWords({ value, unit }: FactBody): string {
  return typeof value === "number" && unit ? `${formatNumber(value)} ${unitText(unit)}` : String(value);
}
