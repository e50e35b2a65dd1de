/** Why a call to the server did not work, in a sentence for the desk. */
import desk from "../../words/en/desk.json";
import type { Failure } from "../../api/result";
import { tell, type DeskKey } from "./tell";

type ProblemKey = Extract<DeskKey, `problem-${string}`>;

/**
 * A problem the desk has no words for comes out as the server says it. Some problems carry a narrower `reason`,
 * such as why a mail server took no mail; its words go first.
 */
export function failureWords(failure: Failure): string {
  if (failure.is !== "problem") return tell(failure.is === "unreachable" ? "not-reached" : "not-baycard");
  const keys = [failure.details["reason"], failure.code].map((one) => `problem-${String(one)}`);
  const known = keys.find(isProblemKey);
  return known ? tell(known) : `${failure.title} ${failure.do}`.trim();
}

function isProblemKey(key: string): key is ProblemKey {
  return `desk.${key}` in desk;
}
