/** The reports of every signature that went before: each stays what it was, so each can be opened again. */
import { reportUrl } from "../../api/api";
import type { CardState } from "../../journal/types";
import { historyOf } from "./history";
import { tell } from "./tell";

export function EarlierReports({ state }: { state: CardState }) {
  const revisions = earlierRevisions(state);
  if (revisions.length === 0) return null;
  return (
    <ul>
      {revisions.map((n) => (
        <li key={n}>
          <a href={reportUrl(state.card, n)} target="_blank" rel="noopener">
            {tell("earlier-report", { n })}
          </a>
        </li>
      ))}
    </ul>
  );
}

/** Newest first; without the one that stands, which has a place of its own. */
export function earlierRevisions(state: CardState): number[] {
  const { stage } = state;
  const shown = stage.is === "signed" ? stage.entry.body.revision : null;
  return historyOf(state, "stage")
    .flatMap((entry) => (entry.kind === "signed-off" ? [entry.body.revision] : []))
    .filter((revision) => revision !== shown)
    .reverse();
}
