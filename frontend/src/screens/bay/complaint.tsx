/** What became of a complaint: cause found, ruled out, or not traced. */
import type { CardState, OutcomeBody } from "../../journal/types";
import { Button } from "../../ui/button";
import { Pick, Tick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { go } from "../route";
import { useBay } from "./context";
import { useDraft } from "./draft";
import { toggled } from "./finding";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { offerUndo } from "./undo";
import { findingName, vehicleName } from "./vehicle";

const OUTCOMES: readonly OutcomeBody["outcome"][] = ["cause-found", "ruled-out", "not-traced"];
type Props = { card: OpenCard; state: CardState; id: string };
type Draft = { outcome: OutcomeBody["outcome"] | null; findings: string[]; words: string };

export function ComplaintScreen({ card, state, id }: Props) {
  const { book } = useBay();
  const { complaint, body, setDraft, keep } = useOutcome({ card, state, id });
  return (
    <Screen
      title={complaint?.words ?? say("complaint")}
      kicker={vehicleName(state)}
      back={{ at: "card", card: card.id }}
      card={card}
      foot={
        <Button look="strong" wide calm disabled={body.outcome === null} onTap={() => void keep()}>
          {say("keep")}
        </Button>
      }
    >
      <div class="stack-wide form">
        <Pick
          legend={say("outcome")}
          picked={body.outcome}
          options={OUTCOMES.map((outcome) => ({ id: outcome, label: say(`outcome-${outcome}`) }))}
          onPick={(outcome) => setDraft({ ...body, outcome })}
        />
        {state.findings.length > 0 ? <h2>{say("outcome-findings")}</h2> : null}
        {state.findings.map((finding) => (
          <Tick
            key={finding.slot}
            label={findingName(finding, book)}
            ticked={body.findings.includes(finding.slot)}
            onTick={(on) => setDraft({ ...body, findings: toggled(body.findings, finding.slot, on) })}
          />
        ))}
        <Field
          label={say("outcome-words")}
          value={body.words}
          lines
          onType={(words) => setDraft({ ...body, words })}
        />
      </div>
    </Screen>
  );
}

/** The outcome as it is being written; findings that name the complaint are ticked to begin with. */
function useOutcome({ card, state, id }: Props) {
  const { nowMs } = useBay();
  const slot = `card/complaint/${id}/outcome`;
  const complaint = state.complaints.find((one) => one.id === id);
  const [draft, setDraft] = useDraft(`${card.id}/${slot}`, asDraft);
  const tied = state.findings.filter((one) => one.entry.body.complaints.includes(id)).map((one) => one.slot);
  const body: Draft = draft ?? complaint?.outcome?.body ?? { outcome: null, findings: tied, words: "" };
  const keep = async () => {
    if (body.outcome === null) return;
    const before = card.standing(slot);
    const entry = await card.keep("complaint-outcome", slot, { ...body, outcome: body.outcome });
    if (!entry) return;
    setDraft(null);
    offerUndo(card, say("outcome-kept"), { entry, before }, nowMs());
    go({ at: "card", card: card.id });
  };
  return { complaint, body, setDraft, keep };
}

function asDraft(kept: unknown): Draft | null {
  if (typeof kept !== "object" || kept === null || !("words" in kept) || !("findings" in kept)) return null;
  const { words, findings } = kept;
  if (typeof words !== "string" || !Array.isArray(findings)) return null;
  const outcome = OUTCOMES.find((one) => "outcome" in kept && kept.outcome === one) ?? null;
  return { outcome, words, findings: findings.filter((one) => typeof one === "string") };
}
