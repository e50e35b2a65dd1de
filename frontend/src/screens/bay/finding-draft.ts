/** A finding while it is being written: kept on the phone under its slot until it is kept as an entry. */
import type { FindingBody } from "../../journal/types";
import { useDraft } from "./draft";
import { GRADES } from "./marks";

export const BLANK_FINDING: FindingBody = {
  title: "",
  plain: "",
  grade: "minor",
  about: null,
  place: null,
  complaints: [],
  photos: [],
  proposed: null,
  note: "",
};

/** What was changed of a finding and not kept yet; null when nothing was. */
export function useFindingDraft(card: string, slot: string): ReturnType<typeof useDraft<FindingBody>> {
  return useDraft(`${card}/${slot}`, asFinding);
}

function asFinding(kept: unknown): FindingBody | null {
  if (typeof kept !== "object" || kept === null || !("title" in kept) || !("grade" in kept)) return null;
  const grade = GRADES.find((one) => one === kept.grade);
  // The rest is this screen's own writing; only a title that is no text or an unknown grade would break it.
  return grade && typeof kept.title === "string"
    ? { ...BLANK_FINDING, ...kept, grade, title: kept.title }
    : null;
}
