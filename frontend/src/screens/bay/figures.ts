/** Figures and units as a person reads and types them. */
import type { Answer, StepOutcome } from "../../journal/types";
import type { AnswerSpec, Limit } from "../../measure/book";
import { parseTyped } from "../../capture/numberpad";
import { formatNumber } from "../../words/words";
import { say } from "./say";

/** Tread depth as gauges in US-unit workshops show it. */
export const THIRTY_SECONDS = "[in_i]/32";

const UNIT_SAYS: Record<string, string> = {
  [THIRTY_SECONDS]: "/32 in",
  "1": "",
  "%": "%",
  deg: "°",
  Cel: "°C",
  "[degF]": "°F",
  "[mi_i]": "mi",
  "[in_i]": "in",
  "[ft_i]": "ft",
  "[psi]": "psi",
  "[qt_us]": "qt (US)",
  "[foz_us]": "fl oz (US)",
  "[lb_av]": "lb",
  "[lbf_av]": "lbf",
  "[ft_i].[lbf_av]": "lbf·ft",
  "[in_i'Hg]": "inHg",
  "N.m": "N·m",
  Ohm: "Ω",
  kOhm: "kΩ",
  "{drop}": "drops",
  "{rev}/min": "rev/min",
};

/** How a UCUM code is written on the screen. */
export function unitText(code: string): string {
  return UNIT_SAYS[code] ?? code.replace(/[{}[\]]/g, "");
}

/** The number a person typed, with comma or dot, or null when it is none. */
export function numberOf(text: string): number | null {
  const typed = parseTyped(text);
  return typed.ok ? typed.value : null;
}

export function figure(value: number, decimals: number): string {
  return formatNumber(value, decimals);
}

export function withUnit(value: number, decimals: number, unit: string): string {
  return joined(figure(value, decimals), unit);
}

/** 5/32 in, but 0.12 mm. */
function joined(text: string, unit: string): string {
  const says = unitText(unit);
  return says.startsWith("/") ? text + says : `${text} ${says}`.trim();
}

/** A number in another unit than the check's own: as many decimals as were typed. */
function asTyped(value: number, typed: string): string {
  if (typed === "") return formatNumber(Number(value.toPrecision(5)));
  return formatNumber(Number(value.toFixed(decimalsIn(typed) + 1)));
}

function decimalsIn(typed: string): number {
  return /[.,](\d+)/.exec(typed)?.[1]?.length ?? 0;
}

/** Decimals of a kind of answer that has a number; 0 otherwise. */
export function decimalsOf(spec: AnswerSpec): number {
  return "decimals" in spec ? spec.decimals : 0;
}

/** An answer in a few words, as in "0.12 mm" or the label of the option. */
export function answerText(answer: Answer, spec: AnswerSpec): string {
  switch (answer.is) {
    case "choice":
      return (
        (spec.kind === "choice" && spec.options.find((one) => one.id === answer.choice)?.label) ||
        answer.choice
      );
    case "number":
      return isOwn(spec, answer.unit)
        ? withUnit(answer.value, Math.max(decimalsOf(spec), decimalsIn(answer.typed ?? "")), answer.unit)
        : joined(asTyped(answer.value, answer.typed ?? ""), answer.unit);
    case "spread":
      return joined(Object.values(answer.values).map(inSpec(spec, answer.unit)).join(" / "), answer.unit);
    case "run":
      return runText(answer.samples, inSpec(spec, answer.unit), answer.unit);
    case "codes":
      return answer.codes.join(", ") || say("no-codes");
    case "text":
      return answer.words;
  }
}

function isOwn(spec: AnswerSpec, unit: string): boolean {
  return "unit" in spec && spec.unit === unit;
}

/** How a reading is written: with no fewer decimals than the check's in its own unit, else as it was typed. */
function inSpec(spec: AnswerSpec, unit: string): (value: number) => string {
  return (value) =>
    isOwn(spec, unit)
      ? figure(value, Math.max(decimalsOf(spec), decimalsIn(String(value))))
      : formatNumber(value);
}

function runText(
  samples: readonly [number, number][],
  said: (value: number) => string,
  unit: string,
): string {
  const first = samples[0];
  const last = samples.at(-1);
  if (!first || !last) return "";
  return `${said(first[1])} → ${joined(said(last[1]), unit)} (${last[0]} s)`;
}

/** The look of what stands in a step: figures in the figures' face, words in that of words. */
export function outcomeLook({ standing }: StepOutcome, { kind }: AnswerSpec): string {
  const isWords = kind === "choice" || kind === "text" || standing.some((entry) => entry.kind !== "answer");
  return isWords ? "outcome-words" : "figure";
}

/** What stands in a step, in words; "" when nothing does. */
export function outcomeText(outcome: StepOutcome, spec: AnswerSpec): string {
  return outcome.standing
    .map((entry) => {
      if (entry.kind === "answer") return answerText(entry.body, spec);
      if (entry.kind === "not-checked") return say(`reason-${entry.body.reason}`);
      return "";
    })
    .concat(outcome.standing.length === 0 && outcome.own ? [measured(outcome.own, spec)] : [])
    .filter(Boolean)
    .join("  |  ");
}

/** What a proposal rests on: the reading, and where two sides were compared, how far they are apart. */
export function becauseText(outcome: StepOutcome, spec: AnswerSpec): string {
  const read = outcomeText(outcome, spec);
  const limit = outcome.limits.find((one) => one.limit.id === outcome.because)?.limit;
  if (limit?.of !== "side-difference" || outcome.value === null) return read;
  const apart = measured({ value: outcome.value, unit: outcome.unit ?? "" }, spec);
  return `${read} · ${say("limit-of-side-difference")} ${apart}`;
}

function measured({ value, unit }: { value: number; unit: string }, spec: AnswerSpec): string {
  return withUnit(value, decimalsOf(spec), unit);
}

/** A limit in words: "more than 0.10 mm is beyond the limit". */
export function limitText(limit: Limit, bound: number | null): string {
  const unit = unitText(limit.unit);
  const maker = limit.maker;
  const above = limit.above ?? (maker?.is === "above" ? bound : null);
  const below = limit.below ?? (maker?.is === "below" ? bound : null);
  const what = say(`limit-of-${limit.of}`);
  if (above !== null && above !== undefined) return say("limit-above", { what, n: above, unit });
  if (below !== null && below !== undefined) return say("limit-below", { what, n: below, unit });
  return say("limit-unknown", { what });
}
