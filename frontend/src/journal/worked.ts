/** Answers that are worked out from other answers, facts and figures. */
import type { AnswerSpec, Check, Source } from "../measure/book";
import { MeasureError } from "../measure/errors";
import { work, type Quantity } from "../measure/methods";
import type { Units } from "../measure/units";
import { inUnit, isNumeric, readingOf, valuesOf, type Reading } from "./reading";
import { answerUpTo, factIn, positionOf, type Records } from "./records";
import { checkSlot } from "./slots";
import type { Answer, FactBody } from "./types";

type WorkedSpec = Extract<AnswerSpec, { kind: "worked-out" }>;
/** A worked-out answer: the reading, or what it lacks (slots, or words of what is wrong with an input). */
export type Worked = { reading: Reading | null; lacks: string[]; newest: number };
/** An input with the round it was read in (0 for figures of no round). A difference has no zero point. */
type Given = { quantity: Quantity; round: number; isDifference?: boolean };
type Input = Given | { lacks: string[] };

const NOTHING: Worked = { reading: null, lacks: [], newest: 0 };

/**
 * The answer of a worked-out check at a position, from the highest round up to `round` of each input.
 *
 * newest: the highest round any input was read in.
 */
export function workedOut(check: Check, position: string, round: number, records: Records): Worked {
  const spec = check.answer;
  if (spec.kind !== "worked-out") return NOTHING;
  const slot = checkSlot(records.checklist.id, check.id, position, round);
  const known = records.worked.get(slot);
  if (known) return known;
  records.worked.set(slot, NOTHING); // an answer that needs itself finds nothing
  const found = workOut(spec, position, round, records);
  records.worked.set(slot, found);
  return found;
}

function workOut(spec: WorkedSpec, position: string, round: number, records: Records): Worked {
  const inputs: [string, Given][] = [];
  const lacks: string[] = [];
  let newest = 0;
  for (const [name, source] of Object.entries(spec.inputs)) {
    const input = inputOf(source, position, round, records);
    if ("lacks" in input) lacks.push(...input.lacks);
    else {
      inputs.push([name, input]);
      newest = Math.max(newest, input.round);
    }
  }
  if (lacks.length > 0) return { reading: null, lacks: [...new Set(lacks)], newest };
  return { ...result(spec, inputs, records), newest };
}

function result(
  spec: WorkedSpec,
  given: readonly [string, Given][],
  { book, units }: Records,
): Pick<Worked, "reading" | "lacks"> {
  const method = Object.hasOwn(book.methods, spec.method) ? book.methods[spec.method] : undefined;
  if (!method) return { reading: null, lacks: [`the method ${spec.method}`] };
  try {
    const inputs = given.map(
      ([name, one]) => [name, asAsked(one, method.inputs[name]?.unit, units)] as const,
    );
    const { value, unit, u } = work(method, Object.fromEntries(inputs), units);
    if (typeof value !== "number") return { reading: null, lacks: [] };
    return { reading: inUnit({ value, u, unit }, spec.unit, false, units), lacks: [] };
  } catch (error) {
    if (error instanceof MeasureError) return { reading: null, lacks: [error.detail] };
    throw error;
  }
}

/** The quantity to hand in. A method converts as from a scale, so a difference is brought into its unit before. */
function asAsked({ quantity, isDifference }: Given, asked: string | undefined, units: Units): Quantity {
  const { value, unit, u = null } = quantity;
  if (!isDifference || asked === undefined || typeof value !== "number") return quantity;
  return asQuantity(inUnit({ value, u, unit }, asked, true, units));
}

function inputOf(source: Source, position: string, round: number, records: Records): Input {
  if ("check" in source) return fromCheck(source, position, round, records);
  if ("fact" in source) return fromFact(factIn(records.standing, source.fact), source.fact, null);
  if ("maker" in source) {
    const slot = `vehicle/maker/${source.maker}`;
    return fromFact(factIn(records.standing, slot), slot, source.unit);
  }
  return { quantity: { value: source.value, unit: source.unit }, round: 0 };
}

function fromFact(fact: FactBody | null, slot: string, unit: string | null): Input {
  if (!fact) return { lacks: [slot] };
  return { quantity: { value: fact.value, unit: fact.unit ?? unit ?? "1" }, round: 0 };
}

function fromCheck(
  source: { check: string; take: string; at?: string },
  position: string,
  round: number,
  records: Records,
): Input {
  const check = records.checks.get(source.check);
  if (!check) return { lacks: [source.check] };
  const at = source.at ?? positionOf(check, position);
  if (source.take.startsWith("minus:")) return minus(check, source.take.slice(6), at, round, records);
  if (check.answer.kind === "worked-out") return fromWorked(check, at, round, records);
  const found = answerUpTo(records, check.id, at, round);
  const quantity = found && quantityOf(found.answer, source.take, records);
  if (!found || !quantity) return { lacks: [checkSlot(records.checklist.id, check.id, at, round)] };
  return { quantity, round: found.round, isDifference: source.take === "range" };
}

function fromWorked(check: Check, at: string, round: number, records: Records): Input {
  const { reading, lacks, newest } = workedOut(check, at, round, records);
  const slot = checkSlot(records.checklist.id, check.id, at, round);
  if (!reading) return { lacks: lacks.length > 0 ? lacks : [slot] };
  return { quantity: asQuantity(reading), round: newest };
}

/** The value of one check less that of another, at the same position. */
function minus(check: Check, less: string, at: string, round: number, records: Records): Input {
  const from = fromCheck({ check: check.id, take: "value", at }, at, round, records);
  const by = fromCheck({ check: less, take: "value" }, at, round, records);
  if ("lacks" in from || "lacks" in by)
    return { lacks: [from, by].flatMap((input) => ("lacks" in input ? input.lacks : [])) };
  return difference(from, by, records);
}

function difference(from: Given, by: Given, { units }: Records): Input {
  const { value, unit, u = null } = from.quantity;
  const less = by.quantity;
  if (typeof value !== "number" || typeof less.value !== "number" || !units.compatible(unit, less.unit))
    return { lacks: [`a difference of ${unit} and ${less.unit}`] };
  const there = inUnit({ value: less.value, u: less.u ?? null, unit: less.unit }, unit, false, units);
  const spread = u === null && there.u === null ? null : Math.hypot(u ?? 0, there.u ?? 0);
  return {
    quantity: asQuantity({ value: value - there.value, u: spread, unit }),
    round: Math.max(from.round, by.round),
    isDifference: true,
  };
}

function quantityOf(answer: Answer, take: string, { book, units }: Records): Quantity | null {
  if (answer.is === "choice") return take === "choice" ? { value: answer.choice, unit: "1" } : null;
  if (!isNumeric(answer)) return null;
  const times = answer.is === "run" ? answer.samples.map(([seconds]) => seconds) : [];
  const [first, last] = [times.at(0), times.at(-1)];
  if (take === "times") return { value: times, unit: "s" };
  if (take === "seconds")
    return first === undefined || last === undefined ? null : { value: last - first, unit: "s" };
  if (take === "samples") return { value: valuesOf(answer), unit: answer.unit };
  const reading = readingOf(answer, take, book.instruments, units);
  return reading && asQuantity(reading);
}

function asQuantity({ value, u, unit }: Reading): Quantity {
  return u === null ? { value, unit } : { value, unit, u };
}
