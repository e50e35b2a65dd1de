/** Work done: for which findings, in words, parts, torque, and what was improvised. */
import type { CardState, WorkBody } from "../../journal/types";
import { Button } from "../../ui/button";
import { Tick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { go } from "../route";
import { useBay } from "./context";
import { useDraft } from "./draft";
import { toggled } from "./finding";
import type { OpenCard } from "./open-card";
import { NO_PART, partOf, Parts, type HalfPart } from "./parts";
import { say } from "./say";
import { Screen } from "./shell";
import { offerUndo } from "./undo";
import { findingName, vehicleName } from "./vehicle";

/** The work as it is being written, with the part that was typed and not added yet. */
type WorkDraft = WorkBody & { half: HalfPart };
const BLANK: WorkDraft = { findings: [], words: "", parts: [], torque: "", improvised: "", half: NO_PART };
type Props = { card: OpenCard; state: CardState; id: string };

export function Work({ card, state, id }: Props) {
  const { book } = useBay();
  const { body, ready, change, keep } = useWork({ card, state, id });
  if (!ready) return null;
  return (
    <Screen
      title={say("work-done")}
      kicker={vehicleName(state)}
      back={{ at: "card", card: card.id }}
      card={card}
      foot={
        <Button look="strong" wide calm disabled={!canKeep(body)} onTap={() => void keep()}>
          {say("work-keep")}
        </Button>
      }
    >
      <div class="stack-wide form">
        {state.findings.length > 0 ? <h2>{say("work-for")}</h2> : null}
        {state.findings.map((finding) => (
          <Tick
            key={finding.slot}
            label={findingName(finding, book)}
            ticked={body.findings.includes(finding.slot)}
            onTick={(on) => change({ findings: toggled(body.findings, finding.slot, on) })}
          />
        ))}
        <WorkFields body={body} onChange={change} />
      </div>
    </Screen>
  );
}

/** The work as it is being written down, and what keeping it does. */
function useWork({ card, state, id }: Props) {
  const { nowMs } = useBay();
  const slot = `work/${id}`;
  const [draft, setDraft, ready] = useDraft(`${card.id}/${slot}`, asWork);
  const start = { ...BLANK, ...state.work.find((one) => one.slot === slot)?.body };
  const body = draft ?? start;
  const keep = async () => {
    const before = card.standing(slot);
    const { half, ...whole } = body;
    const part = partOf(half);
    const parts = part ? [...body.parts, part] : body.parts;
    const entry = await card.keep("work-done", slot, { ...whole, parts, words: body.words.trim() });
    if (!entry) return;
    setDraft(null);
    offerUndo(card, say("work-kept"), { entry, before }, nowMs());
    go({ at: "recheck", card: card.id }, true);
  };
  const change = (part: Partial<WorkDraft>) => setDraft((now) => ({ ...(now ?? start), ...part }));
  return { body, ready, change, keep };
}

/** A part whose count is none holds the work up: it would be lost without a word. */
function canKeep({ words, half }: WorkDraft): boolean {
  return words.trim() !== "" && (half.name.trim() === "" || partOf(half) !== null);
}

type FieldsProps = { body: WorkDraft; onChange: (part: Partial<WorkDraft>) => void };

function WorkFields({ body, onChange }: FieldsProps) {
  return (
    <>
      <Field label={say("work-words")} value={body.words} lines onType={(words) => onChange({ words })} />
      <Parts parts={body.parts} half={body.half} onChange={onChange} />
      <Field
        label={say("work-torque")}
        hint={say("work-torque-hint")}
        value={body.torque}
        lines
        onType={(torque) => onChange({ torque })}
      />
      <Field
        label={say("work-improvised")}
        hint={say("work-improvised-hint")}
        value={body.improvised}
        lines
        onType={(improvised) => onChange({ improvised })}
      />
    </>
  );
}

/** What this screen itself kept; anything else is left alone. */
function asWork(kept: unknown): WorkDraft | null {
  if (typeof kept !== "object" || kept === null || !("words" in kept) || !("parts" in kept)) return null;
  if (typeof kept.words !== "string" || !Array.isArray(kept.parts)) return null;
  return { ...BLANK, ...kept, words: kept.words, parts: kept.parts };
}
