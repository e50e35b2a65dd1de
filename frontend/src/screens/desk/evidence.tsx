/** A reading beside its limit, as found and after work, with the source it rests on. */
import type { CardState, StepOutcome, StepState } from "../../journal/types";
import type { AnswerSpec, Limit } from "../../measure/book";
import { Units } from "../../measure/units";
import { useBay } from "../bay/context";
import { decimalsOf, figure, limitText, outcomeText, unitText } from "../bay/figures";
import { OutcomeMark } from "../bay/marks";
import { sourceAndBasis } from "../bay/source-text";
import { roundName } from "../bay/vehicle";
import { tell } from "./tell";
import { Trail } from "./trail";

/** Every round side by side, then the limits. */
export function Rounds({ step, state }: { step: StepState; state: CardState }) {
  const told = step.rounds
    .map((outcome, at) => ({ outcome, round: at + 1 }))
    .filter(
      ({ outcome, round }) => round === 1 || (outcome.state !== "open" && outcome.state !== "not-asked"),
    );
  return (
    <div class="desk-rounds">
      {told.map(({ outcome, round }) => (
        <div key={round}>
          <p class="label">{roundName(round)}</p>
          <Reading outcome={outcome} spec={step.step.check.answer} />
          <Uncertainty outcome={outcome} decimals={decimalsOf(step.step.check.answer)} />
          <Trail state={state} slot={outcome.slot} />
        </div>
      ))}
      <LimitLines step={step} />
    </div>
  );
}

/** The value with its mark. */
export function Reading({ outcome, spec }: { outcome: StepOutcome; spec: AnswerSpec }) {
  return (
    <p class="desk-reading">
      <Said outcome={outcome} spec={spec} /> <OutcomeMark outcome={outcome} />
    </p>
  );
}

/** Numbers in the figures' face, words in the text's. */
function Said({ outcome, spec }: { outcome: StepOutcome; spec: AnswerSpec }) {
  const text = outcomeText(outcome, spec);
  if (text === "") return null;
  const isNumber =
    ["number", "spread", "run", "worked-out"].includes(spec.kind) && outcome.state !== "not-checked";
  return (
    <span class={isNumber ? "figure" : "desk-said"} dir="auto">
      {text}
    </span>
  );
}

function Uncertainty({ outcome: { own }, decimals }: { outcome: StepOutcome; decimals: number }) {
  if (!own || own.u === null) return null;
  const u = figure(Number((2 * own.u).toPrecision(2)), decimals + 1);
  return <p class="soft">{tell("plus-minus", { u, unit: unitText(own.unit) })}</p>;
}

function LimitLines({ step }: { step: StepState }) {
  const units = useUnits();
  const { check } = step.step;
  const options = optionSources(step);
  const [outcome] = step.rounds;
  const bound = (id: string) => outcome?.limits.find((one) => one.limit.id === id)?.bound ?? null;
  const readIn = step.rounds.find((one) => one.unit !== null)?.unit ?? null;
  if (check.limits.length + options.length === 0) return <p class="soft">{tell("no-limit")}</p>;
  return (
    <div>
      <p class="label">{tell(check.limits.length > 0 ? "limit" : "rests-on")}</p>
      {check.limits.map((limit) => (
        <div key={limit.id}>
          <p>{limitIn(limit, bound(limit.id), readIn, units)}</p>
          <p class="soft">{tell("source", { source: sourceAndBasis(limit.source, limit.basis) })}</p>
        </div>
      ))}
      {options.map(({ id, source, basis }) => (
        <p key={id} class="soft">
          {tell("source", { source: sourceAndBasis(source ?? "", basis ?? "published") })}
        </p>
      ))}
    </div>
  );
}

function useUnits(): Units {
  return new Units(useBay().book.units);
}

/** The limit in the unit it was read in, so that both can be compared at a glance; then in its own. */
function limitIn(limit: Limit, bound: number | null, readIn: string | null, units: Units): string {
  const own = limitText(limit, bound);
  const value = limit.above ?? limit.below ?? bound;
  if (value === null || readIn === null || readIn === limit.unit) return own;
  const difference = limit.of === "range" || limit.of === "side-difference";
  const converted = difference
    ? units.convertDifference(value, limit.unit, readIn)
    : units.convert(value, limit.unit, readIn);
  const shown = Number(converted.toPrecision(3));
  const side = limit.maker ? limit.maker.is : limit.above === undefined ? "below" : "above";
  const there = limitText({ ...limit, unit: readIn, [side]: shown }, shown);
  return `${there} (${figure(value, 3)} ${unitText(limit.unit)})`;
}

/** The chosen option's own source, for checks that are judged by what was seen. */
function optionSources({ step, rounds }: StepState) {
  const { answer } = step.check;
  if (answer.kind !== "choice") return [];
  const chosen = rounds
    .flatMap((outcome) => outcome.standing)
    .map((entry) => (entry.kind === "answer" && entry.body.is === "choice" ? entry.body.choice : null));
  return answer.options.filter((option) => option.source && chosen.includes(option.id));
}
