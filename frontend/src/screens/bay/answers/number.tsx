/** One number, with repeats: digits and one tap. */
import { press } from "../../../capture/numberpad";
import type { AnswerSpec } from "../../../measure/book";
import { formatNumber } from "../../../words/words";
import { Pad } from "../../../ui/pad";
import { useDraft } from "../draft";
import { unitText } from "../figures";
import { say } from "../say";
import { keepAnswer, type AnswerProps } from "./answer";
import { ReadingLine, useEntryUnit } from "./entry-unit";
import { useInstrument } from "./instrument";
import { padWords } from "./pad-words";
import { AskOnce, useSecondTap } from "./second-tap";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "number" }> };
/** `unit` is that of the typed digits and of the repeats */
type Draft = { typed: string; repeats: number[]; unit?: string };
const EMPTY: Draft = { typed: "", repeats: [] };

export function NumberAnswer(props: Props) {
  const { spec, card, outcome } = props;
  const [held, setDraft] = useDraft(`${card.id}/${outcome.slot}`, asDraft);
  const { picked, control, missing } = useInstrument(card.id, spec.instruments);
  const draft = held ?? EMPTY;
  const entry = useEntryUnit(card.id, spec, {
    unit: draft.unit,
    isFixed: draft.repeats.length > 0,
    onChange: (unit) => setDraft((now) => ({ ...(now ?? EMPTY), unit })),
  });
  const tap = useSecondTap();
  const value = entry.read(draft.typed);
  const readings = value === null ? draft.repeats : [...draft.repeats, value];
  const isPossible = value === null || entry.isPossible(value);
  const keep = async () => {
    if (!tap.pass(draft.typed, isPossible)) return;
    const kept = await keepAnswer(props, {
      is: "number",
      value: mean(readings),
      unit: entry.unit,
      typed: draft.typed,
      ...(readings.length > 1 ? { repeats: readings } : {}),
      ...(picked ? { instrument: picked } : {}),
    });
    if (kept) setDraft(null);
  };
  const again = () => {
    if (value === null || !tap.pass(draft.typed, isPossible)) return;
    setDraft({ typed: "", repeats: readings, unit: entry.unit });
  };
  if (missing) return control;
  return (
    <div>
      <ReadingLine
        entry={entry}
        typed={draft.typed}
        before={draft.repeats.map((one) => formatNumber(one)).join("  ")}
      />
      {tap.isAsking(draft.typed) ? <AskOnce typed={draft.typed} entry={entry} /> : null}
      <Pad
        onKey={(key) =>
          setDraft((now) => ({ ...(now ?? EMPTY), unit: entry.unit, typed: press(now?.typed ?? "", key) }))
        }
        onKeep={() => void keep()}
        onAgain={again}
        signed={entry.range[0] < 0}
        canKeep={draft.typed === "" ? readings.length > 0 : value !== null}
        canAgain={value !== null}
        words={padWords(readings.length > 1 ? say("keep-mean", { n: readings.length }) : say("keep"))}
      />
      <Repeats readings={readings} unit={entry.unit} />
      {control}
    </div>
  );
}

/** How many readings, their mean, and how far they lie apart. */
function Repeats({ readings, unit }: { readings: readonly number[]; unit: string }) {
  if (readings.length < 2) return null;
  const apart = Math.max(...readings) - Math.min(...readings);
  const short = (value: number) => formatNumber(Number(value.toPrecision(4)));
  return (
    <p class="repeats" role="status">
      {say("repeats-say", {
        n: readings.length,
        mean: short(mean(readings)),
        apart: short(apart),
        unit: unitText(unit),
      })}
    </p>
  );
}

function mean(values: readonly number[]): number {
  const sum = values.reduce((total, value) => total + value, 0) / values.length;
  return Number(sum.toPrecision(12));
}

function asDraft(kept: unknown): Draft | null {
  if (typeof kept !== "object" || kept === null || !("typed" in kept) || !("repeats" in kept)) return null;
  const { typed, repeats } = kept;
  if (typeof typed !== "string" || !Array.isArray(repeats)) return null;
  const unit = "unit" in kept && typeof kept.unit === "string" ? { unit: kept.unit } : {};
  return { typed, repeats: repeats.filter((one) => typeof one === "number"), ...unit };
}
