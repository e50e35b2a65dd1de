/** A reading that can hardly be right is asked about once, in place; a second tap keeps it as it was typed. */
import { useRef, useState } from "preact/hooks";
import { unitText } from "../figures";
import { useBay } from "../context";
import { say } from "../say";
import { rangeText, type EntryUnit } from "./entry-unit";

/** Longer than a storm of taps lasts, so that none of its taps answers the question. */
const READ_FIRST_MS = 700;

export type SecondTap = {
  /** true when it may be kept now; else the question is on the screen */
  pass: (typed: string, isPossible: boolean) => boolean;
  /** whether the question is about this typed text */
  isAsking: (typed: string) => boolean;
};

export function useSecondTap(): SecondTap {
  const { nowMs } = useBay();
  const [asking, setAsking] = useState<string | null>(null);
  const askedAt = useRef(0);
  return {
    isAsking: (typed) => asking === typed,
    pass: (typed, isPossible) => {
      if (isPossible) return true;
      if (asking === typed) return nowMs() - askedAt.current >= READ_FIRST_MS;
      askedAt.current = nowMs();
      setAsking(typed);
      return false;
    },
  };
}

/** The question itself. */
export function AskOnce({ typed, entry }: { typed: string; entry: EntryUnit }) {
  return (
    <p class="told" role="alert">
      {say("ask-once", { typed, unit: unitText(entry.unit), range: rangeText(entry) })}
    </p>
  );
}
