/** Where a card stands between bay and desk, in words, and who moved it there. */
import type { CardState, Stage } from "../../journal/types";
import { tell } from "./tell";
import { Who } from "./trail";

export function StageLine({ state }: { state: CardState }) {
  const { stage } = state;
  return (
    <p class="desk-stage">
      <strong>{stageText(stage)}</strong>
      {"entry" in stage ? (
        <span class="soft">
          {" "}
          <Who entry={stage.entry} state={state} />
        </span>
      ) : null}
    </p>
  );
}

export function stageText(stage: Stage): string {
  if (stage.is !== "signed") return tell(`stage-${stage.is}`);
  const n = stage.entry.body.revision;
  return tell(stage.changedSince ? "stage-signed-changed" : "stage-signed", { n });
}
