/** Working a method out: inputs into its units, formula or function, uncertainty of the result. */

import { at, number } from "./arithmetic";
import type { Method, MethodInput } from "./book";
import { MeasureError } from "./errors";
import { FUNCTIONS } from "./functions";
import type { Answer, Given, GivenValue } from "./given";
import { evaluate, LONGEST_LIST } from "./tree";
import { combined } from "./uncertainty";
import type { Units } from "./units";

/** How far, in parts of the range's ends, a converted value may lie outside by rounding alone. */
const SLACK = 1e-9;
/** Declares an input or an output in any one unit. */
const ANY = "{any}";

/**
 * What is put in: a number, text, or a list of either, its unit, and its standard uncertainty if known. The uncertainty
 * of a list is that of each of its values.
 */
export type Quantity = { value: GivenValue; unit: string; u?: number | null };
/** What came out, in the method's unit, with its standard uncertainty when the inputs carried any. */
export type Result = { value: Answer; unit: string; u: number | null };
/** What of a method is needed to work it out. */
export type Workable = Pick<Method, "id" | "inputs" | "output" | "tree" | "function">;

type Inputs = Readonly<Record<string, Quantity>>;
type Asked = { name: string; spec: MethodInput };
type Run = (given: Given) => Answer;

/**
 * The answer of a method. Any compatible unit is taken and converted; defaults stand in for what is missing. Uncertainty
 * by central differences over one standard uncertainty of each input, inputs uncorrelated (JCGM 100 5.1.2 and 5.1.3
 * note 2). Inputs declared in `{any}` share the unit of the first of them that is given, and so does an output in `{any}`.
 * Throws MeasureError with any of its codes.
 */
export function work(method: Workable, inputs: Inputs, units: Units): Result {
  const run = runner(method, units);
  const shared = sharedUnit(method, inputs);
  const given: Record<string, GivenValue> = {};
  const asked = Object.entries(method.inputs).map(([name, spec]) => ({ name, spec: inUnit(spec, shared) }));
  for (const { name, spec } of asked) given[name] = checked(name, spec, own(inputs, name), units);
  const value = run(given);
  const u =
    typeof value === "number" ? propagated(run, given, value, uncertainties(asked, inputs, units)) : null;
  return { value, unit: outputUnit(method.output.unit, given, shared), u };
}

/** The unit of the first input given of those that may be in any unit. */
function sharedUnit(method: Workable, inputs: Inputs): string {
  const free = Object.keys(method.inputs).filter((name) => method.inputs[name]?.unit === ANY);
  const first = free.find((name) => Object.hasOwn(inputs, name));
  return (first === undefined ? undefined : inputs[first]?.unit) ?? "1";
}

function inUnit(spec: MethodInput, shared: string): MethodInput {
  return spec.unit === ANY ? { ...spec, unit: shared } : spec;
}

function runner(method: Workable, units: Units): Run {
  const { tree } = method;
  if (tree !== null) return (given) => evaluate(tree, numbers(given));
  const named = own(FUNCTIONS, method.function ?? "");
  if (!named) throw new MeasureError("unknown-method", `${method.id} has no formula and no known function`);
  return (given) => named.work(given, units);
}

/** What a formula can read: text inputs are left out. */
function numbers(given: Given): Record<string, number | number[]> {
  const found: Record<string, number | number[]> = {};
  for (const [name, value] of Object.entries(given)) {
    if (typeof value === "number") found[name] = value;
    if (typeof value === "number" || typeof value === "string") continue;
    const items = value.filter((item) => typeof item === "number");
    if (items.length === value.length) found[name] = items;
  }
  return found;
}

/** The input in its declared unit, checked. */
function checked(name: string, spec: MethodInput, quantity: Quantity | undefined, units: Units): GivenValue {
  if (!quantity) {
    if (typeof spec.default === "number") return spec.default;
    throw new MeasureError("missing-input", `${name} is needed, in ${spec.unit}`);
  }
  const { value, unit } = quantity;
  if (!spec.list) return spec.text ? asText(name, value) : asAmount(name, spec, value, unit, units);
  if (!Array.isArray(value)) throw new MeasureError("not-a-number", `${name} needs a list`);
  if (value.length > LONGEST_LIST) {
    throw new MeasureError("too-large", `${name} has more than ${LONGEST_LIST} values`);
  }
  const items: readonly unknown[] = value;
  return items.map((item) => (spec.text ? asText(name, item) : asAmount(name, spec, item, unit, units)));
}

function asText(name: string, value: unknown): string {
  if (typeof value !== "string") throw new MeasureError("wrong-unit", `${name} needs text`);
  return value;
}

function asAmount(name: string, spec: MethodInput, value: unknown, unit: string, units: Units): number {
  const amount = converted(name, spec, number(value, name), unit, units);
  if (spec.range) {
    const [low, high] = spec.range;
    const slack = SLACK * Math.max(Math.abs(low), Math.abs(high));
    if (amount < low - slack || amount > high + slack) {
      throw new MeasureError("out-of-range", `${name} must lie between ${low} and ${high} ${spec.unit}`);
    }
  }
  return amount;
}

function converted(name: string, spec: MethodInput, value: number, unit: string, units: Units): number {
  try {
    return units.convert(value, unit, spec.unit);
  } catch (error) {
    if (error instanceof MeasureError) throw new MeasureError(error.code, `${name}: ${error.detail}`);
    throw error;
  }
}

/** The standard uncertainty of each input that has one, in its declared unit. */
function uncertainties(asked: Asked[], inputs: Inputs, units: Units): [string, number][] {
  return asked.flatMap(({ name, spec }): [string, number][] => {
    const quantity = own(inputs, name);
    if (!quantity || quantity.u === undefined || quantity.u === null || spec.text) return [];
    if (number(quantity.u, name) < 0) {
      throw new MeasureError("out-of-range", `the uncertainty of ${name} cannot be negative`);
    }
    return [[name, units.convertDifference(quantity.u, quantity.unit, spec.unit)]];
  });
}

function propagated(run: Run, given: Given, centre: number, uncertain: [string, number][]): number | null {
  if (uncertain.length === 0) return null;
  const parts = uncertain
    .filter(([, u]) => u > 0)
    .flatMap(([name, u]) => places(given[name]).map((place) => effect(run, given, centre, [name, place, u])));
  return combined(parts);
}

function places(value: GivenValue | undefined): number[] {
  return typeof value === "object" ? [...value.keys()] : [0];
}

/** Half the difference between the answers one u up and one u down; at the edge of the domain, one side alone. */
function effect(run: Run, given: Given, centre: number, [name, place, u]: [string, number, number]): number {
  const high = answer(run, shifted(given, name, place, u));
  const low = answer(run, shifted(given, name, place, -u));
  if (high === null && low === null) {
    throw new MeasureError("outside-domain", `${name} is too uncertain for this calculation`);
  }
  if (high === null || low === null) return (high ?? centre) - (low ?? centre);
  return (high - low) / 2;
}

function answer(run: Run, given: Given): number | null {
  try {
    return number(run(given), "the answer");
  } catch (error) {
    if (error instanceof MeasureError && error.code === "outside-domain") return null;
    throw error;
  }
}

function shifted(given: Given, name: string, place: number, by: number): Given {
  const value = given[name];
  if (typeof value !== "object") return { ...given, [name]: number(value, name) + by };
  const items = value.map((item) => number(item, name));
  items[place] = at(items, place) + by;
  return { ...given, [name]: items };
}

/** The declared unit; {any} is the unit shared, {name} the unit which the text input of that name holds. */
function outputUnit(unit: string, given: Given, shared: string): string {
  if (unit === ANY) return shared;
  const named = /^\{([^{}]+)\}$/.exec(unit)?.[1];
  const held = named === undefined ? undefined : own(given, named);
  return typeof held === "string" ? held : unit;
}

function own<T>(table: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}
