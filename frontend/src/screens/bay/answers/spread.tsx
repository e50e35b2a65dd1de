/** A set of points in one go: the pad walks from point to point and keeps them together. */
import { useState } from "preact/hooks";
import { press } from "../../../capture/numberpad";
import type { AnswerSpec } from "../../../measure/book";
import { Pad } from "../../../ui/pad";
import { useDraft } from "../draft";
import { unitText } from "../figures";
import { say } from "../say";
import { answerOf, keepAnswer, type AnswerProps } from "./answer";
import { rangeText, UnitSwitch, useEntryUnit, type EntryUnit } from "./entry-unit";
import { useInstrument } from "./instrument";
import { padWords } from "./pad-words";
import { AskOnce, useSecondTap } from "./second-tap";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "spread" }> };
/** point id -> what was typed; the unit of all of them stands under a name no point can have */
type Draft = Record<string, string>;
const UNIT = "unit:";

export function SpreadAnswer(props: Props) {
  const { spec, card, outcome } = props;
  const [held, setDraft] = useDraft(`${card.id}/${outcome.slot}`, asDraft);
  const { picked, control, missing } = useInstrument(card.id, spec.instruments);
  const [at, setAt] = useState(0);
  const [sure, setSure] = useState<ReadonlySet<string>>(new Set());
  const tap = useSecondTap();
  const draft = held ?? {};
  const point = spec.points[at] ?? spec.points[0];
  const typed = (point && draft[point.id]) ?? "";
  const others = spec.points.some((one) => one !== point && (draft[one.id] ?? "") !== "");
  const entry = useEntryUnit(card.id, spec, {
    unit: draft[UNIT],
    isFixed: others,
    onChange: (unit) => setDraft((now) => ({ ...now, [UNIT]: unit })),
  });
  const value = entry.read(typed);
  const key = `${point?.id}/${typed}`;
  const isSure = value === null || sure.has(key) || entry.isPossible(value);
  const values = readPoints(spec, draft, entry, standingIn(answerOf(outcome), entry.unit));
  const keep = async () => {
    if (!tap.pass(key, isSure)) return;
    setSure(new Set([...sure, key]));
    const next = spec.points.findIndex((one) => entry.read(draft[one.id] ?? "") === null);
    if (values === null) return setAt(Math.max(0, next));
    const kept = await keepAnswer(props, {
      is: "spread",
      values,
      unit: entry.unit,
      ...(picked ? { instrument: picked } : {}),
    });
    if (kept) setDraft(null);
    return undefined;
  };
  if (missing) return control;
  return (
    <div>
      <Points spec={spec} draft={draft} at={at} onGo={setAt} standing={answerOf(outcome)} unit={entry.unit} />
      {tap.isAsking(key) ? <AskOnce typed={typed} entry={entry} /> : null}
      <Pad
        onKey={(pressed) =>
          point &&
          setDraft((now) => ({
            ...now,
            [UNIT]: entry.unit,
            [point.id]: press(now?.[point.id] ?? "", pressed),
          }))
        }
        onKeep={() => void keep()}
        signed={entry.range[0] < 0}
        calm={values !== null}
        canKeep={value !== null}
        words={padWords(say(values === null ? "next-point" : "keep"))}
      />
      <div class="unit-line">
        <span class="soft">{rangeText(entry)}</span>
        <UnitSwitch entry={entry} />
      </div>
      {control}
    </div>
  );
}

type PointsProps = {
  spec: Props["spec"];
  draft: Draft;
  at: number;
  onGo: (at: number) => void;
  standing: ReturnType<typeof answerOf>;
  unit: string;
};

function Points({ spec, draft, at, onGo, standing, unit }: PointsProps) {
  return (
    <div class="points">
      {spec.points.map((point, index) => {
        const kept = standing?.is === "spread" ? standing.values[point.id] : undefined;
        return (
          <button
            key={point.id}
            type="button"
            class="point"
            aria-pressed={index === at}
            onClick={() => onGo(index)}
          >
            <span class="label">{point.label}</span>
            <span class="figure">{draft[point.id] || (kept === undefined ? "–" : String(kept))}</span>
            <span class="unit">
              {unitText(draft[point.id] || standing?.is !== "spread" ? unit : standing.unit)}
            </span>
          </button>
        );
      })}
    </div>
  );
}

/** What was kept before stands where a point is not typed again, in the same unit. */
function standingIn(answer: ReturnType<typeof answerOf>, unit: string): Partial<Record<string, number>> {
  return answer?.is === "spread" && answer.unit === unit ? answer.values : {};
}

/** Every point as a number, or null while one is missing. */
function readPoints(
  spec: Props["spec"],
  draft: Draft,
  entry: EntryUnit,
  standing: Partial<Record<string, number>>,
): Record<string, number> | null {
  const values: Record<string, number> = {};
  for (const point of spec.points) {
    const typed = draft[point.id] ?? "";
    const value = typed === "" ? (standing[point.id] ?? null) : entry.read(typed);
    if (value === null) return null;
    values[point.id] = value;
  }
  return values;
}

function asDraft(kept: unknown): Draft | null {
  if (typeof kept !== "object" || kept === null) return null;
  return Object.fromEntries(
    Object.entries(kept).filter((pair): pair is [string, string] => typeof pair[1] === "string"),
  );
}
