/** What became of a complaint: cause found, ruled out, or not traced. */
import type { CardState, Entry, OutcomeBody } from "../../journal/types";
import { Button } from "../../ui/button";
import { Pick, Tick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { useLeaving } from "../../ui/leaving";
import { goBack, type Route } from "../route";
import { useCameFrom } from "./came-from";
import { useBay } from "./context";
import { useDraft } from "./draft";
import { toggled } from "./finding";
import { useKeeping, type By } from "./keeping";
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
  const back = useCameFrom(card.id, { at: "card", card: card.id });
  const { complaint, body, setDraft, keep } = useOutcome({ card, state, id, back });
  return (
    <Screen
      title={complaint?.words ?? say("complaint")}
      kicker={vehicleName(state)}
      back={back}
      card={card}
      foot={
        <Button look="strong" wide calm disabled={body.outcome === null} onTap={() => void keep("tap")}>
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

/**
 * The outcome as it is being written; findings that name the complaint are ticked to begin with. Once it is said what became
 * of the complaint, leaving keeps it as well.
 */
function useOutcome({ card, state, id, back }: Props & { back: Route }) {
  const { nowMs } = useBay();
  const slot = `card/complaint/${id}/outcome`;
  const complaint = state.complaints.find((one) => one.id === id);
  const [draft, setDraft, , latest] = useDraft(`${card.id}/${slot}`, asDraft);
  const tied = state.findings.filter((one) => one.entry.body.complaints.includes(id)).map((one) => one.slot);
  const body: Draft = draft ?? complaint?.outcome?.body ?? { outcome: null, findings: tied, words: "" };
  const written = (by: By): OutcomeBody | null => {
    const now = latest() ?? (by === "tap" ? body : null);
    return now?.outcome ? { ...now, outcome: now.outcome, words: now.words.trim() } : null;
  };
  const keep = useKeeping(written, async (said, by) => {
    const isSaid = (stood: readonly Entry[]) =>
      stood.length === 1 && JSON.stringify(stood[0]?.body) === JSON.stringify(said);
    const kept = await card.amend(slot, (stood) =>
      isSaid(stood) ? null : { kind: "complaint-outcome", body: said },
    );
    if (kept === null) return;
    setDraft((now) => (now?.outcome === said.outcome && now.words.trim() === said.words ? null : now));
    if (kept !== "unchanged") offerUndo(card, say("outcome-kept"), kept, nowMs());
    if (by === "tap") goBack(back);
  });
  useLeaving(() => void keep("leaving"));
  return { complaint, body, setDraft, keep };
}

function asDraft(kept: unknown): Draft | null {
  if (typeof kept !== "object" || kept === null || !("words" in kept) || !("findings" in kept)) return null;
  const { words, findings } = kept;
  if (typeof words !== "string" || !Array.isArray(findings)) return null;
  const outcome = OUTCOMES.find((one) => "outcome" in kept && kept.outcome === one) ?? null;
  return { outcome, words, findings: findings.filter((one) => typeof one === "string") };
}
