/** The unit a reading is typed in: changed by one tap, remembered for the walk; the typed digits stay as they are. */
import { useMemo } from "preact/hooks";
import { Units } from "../../../measure/units";
import { formatNumber } from "../../../words/words";
import { useBay } from "../context";
import { asText, useDraft } from "../draft";
import { unitText } from "../figures";
import { say } from "../say";
import { entryUnits, readTyped, usualUnit } from "./entry-units";

type Measured = { unit: string; instruments: readonly string[]; range: readonly [number, number] };
export type EntryUnit = {
  unit: string;
  /** the unit a tap on the switch brings; null when there is no other */
  next: string | null;
  change: () => void;
  read: (typed: string) => number | null;
  /** whether the value can be right, judged in the check's own unit */
  isPossible: (value: number) => boolean;
  /** the possible range in the unit now in use */
  range: [number, number];
};

type Begun = {
  /** the unit of what is typed already */
  unit: string | undefined;
  /** true when readings were taken in it, which go on in it */
  isFixed: boolean;
  onChange: (unit: string) => void;
};

export function useEntryUnit(card: string, spec: Measured, begun: Begun): EntryUnit {
  const { book, me } = useBay();
  const units = useMemo(() => new Units(book.units), [book]);
  const [chosen, choose] = useDraft(`entry-unit/${card}/${spec.unit}/${spec.instruments.join("+")}`, asText);
  const choices = entryUnits(spec).filter((unit) => units.compatible(unit, spec.unit));
  const wished = begun.unit ?? chosen ?? usualUnit(spec, me.workshop.units);
  const unit = choices.includes(wished) ? wished : spec.unit;
  const next = choices[(choices.indexOf(unit) + 1) % choices.length] ?? unit;
  const [lo, hi] = spec.range;
  return {
    unit,
    next: next === unit || begun.isFixed ? null : next,
    change: () => {
      choose(next);
      if (begun.unit !== undefined) begun.onChange(next);
    },
    read: (typed) => readTyped(typed, unit),
    isPossible: (value) => {
      const own = units.convert(value, unit, spec.unit);
      return own >= lo && own <= hi;
    },
    range: [units.convert(lo, spec.unit, unit), units.convert(hi, spec.unit, unit)],
  };
}

type LineProps = { entry: EntryUnit; typed: string; before: string };

/** What is typed, in which unit, after what; the unit is a switch where there is another. */
export function ReadingLine({ entry, typed, before }: LineProps) {
  return (
    <div class="reading" aria-live="polite">
      <span class="before">{before || rangeText(entry)}</span>
      <span class={`figure ${lookOf(typed)}`}>{typed || "–"}</span>
      <UnitSwitch entry={entry} />
    </div>
  );
}

/** A long number gets smaller digits, so that all of them stay in sight on a narrow screen. */
function lookOf(typed: string): string {
  if (typed.length > 12) return "longer";
  return typed.length > 6 ? "long" : "";
}

export function UnitSwitch({ entry: { unit, next, change } }: { entry: EntryUnit }) {
  if (next === null) return <span class="unit">{unitText(unit)}</span>;
  return (
    <button
      type="button"
      class="unit unit-switch"
      aria-label={say("unit-switch", { now: unitText(unit), next: unitText(next) })}
      onClick={change}
    >
      {unitText(unit)} <span aria-hidden="true">⇄</span>
    </button>
  );
}

/** "0 to 10 mm": what the check takes for possible. */
export function rangeText({ range: [lo, hi], unit }: EntryUnit): string {
  return say("range-hint", { lo: short(lo), hi: short(hi), unit: unitText(unit) }).trim();
}

function short(value: number): string {
  return formatNumber(Number(value.toPrecision(3)));
}
