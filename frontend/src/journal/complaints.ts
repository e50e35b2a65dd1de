/** The customer's complaints, what came of each, and the findings tied to them. */
import { byId, isOfKind } from "./findings";
import type { ComplaintState, EntryOf, Finding, Standing } from "./types";

/** Every standing complaint, oldest first. */
export function complaintsOf(standing: Standing, findings: readonly Finding[]): ComplaintState[] {
  const complaints: ComplaintState[] = [];
  for (const [slot, entries] of standing) {
    const entry = entries.find((one) => isOfKind(one, "complaint"));
    if (!entry) continue;
    const id = slot.slice("card/complaint/".length);
    const outcome = outcomeAlone(standing, `${slot}/outcome`);
    const tied = findings
      .filter((finding) => finding.entry.body.complaints.includes(id))
      .map(({ slot }) => slot);
    const named = outcome?.body.findings ?? [];
    complaints.push({
      id,
      words: entry.body.words,
      entry,
      outcome,
      findings: [...new Set([...tied, ...named])],
    });
  }
  return complaints.sort((a, b) => byId(a.entry, b.entry));
}

function outcomeAlone(standing: Standing, slot: string): EntryOf<"complaint-outcome"> | null {
  const entries = standing.get(slot) ?? [];
  const [entry] = entries;
  return entries.length === 1 && entry && isOfKind(entry, "complaint-outcome") ? entry : null;
}
