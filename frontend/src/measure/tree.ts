/**
 * Formula trees: the one small evaluator for the arithmetic of the methods (docs/formats.md, "Formula tree").
 * Numbers combine with numbers, and element by element with lists. The same steps in the same order as on the server.
 */

import { asNumber, CALLS, finite, number, over, power, type Value } from "./arithmetic";
import { MeasureError } from "./errors";

export const DEEPEST = 200;
export const MOST_NODES = 5000;
export const LONGEST_LIST = 20_000;

export type Inputs = Readonly<Record<string, number | readonly number[]>>;
type Names = ReadonlyMap<string, Value>;
type Parts = readonly unknown[];
type Step = { least: number; most: number; work: (parts: Parts, names: Names) => Value };

/**
 * What a formula gives: a number, a list of numbers, or a yes or no.
 * inputs: name -> number or list of numbers, already in the units the formula expects.
 * Throws MeasureError `missing-input`, `not-a-number`, `outside-domain`, `too-large`, `unknown-method`.
 */
export function evaluate(tree: Parts, inputs: Inputs): Value {
  bound(tree);
  const names = new Map<string, Value>();
  for (const [name, value] of Object.entries(inputs)) names.set(name, input(name, value));
  return valueOf(tree, names);
}

/** Refuses what is too deep or too large before any of it is worked out. */
function bound(tree: Parts): void {
  const waiting: [Parts, number][] = [[tree, 1]];
  let seen = 0;
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [node, depth] = next;
    seen += 1;
    if (depth > DEEPEST || seen > MOST_NODES) {
      throw new MeasureError("too-large", "the formula is too deep or too long");
    }
    for (const part of node) if (Array.isArray(part)) waiting.push([part, depth + 1]);
  }
}

function input(name: string, value: unknown): Value {
  if (!Array.isArray(value)) return number(value, name);
  if (value.length > LONGEST_LIST) {
    throw new MeasureError("too-large", `${name} has more than ${LONGEST_LIST} values`);
  }
  return value.map((item) => number(item, name));
}

function valueOf(node: unknown, names: Names): Value {
  if (!Array.isArray(node) || node.length === 0) {
    throw new MeasureError("unknown-method", "the formula has something that is not a step");
  }
  const [kind, ...parts]: unknown[] = node;
  const step = typeof kind === "string" ? STEPS.get(kind) : undefined;
  if (!step || parts.length < step.least || parts.length > step.most) {
    throw new MeasureError(
      "unknown-method",
      `the formula has a step ${String(kind)} that is not known or has wrong parts`,
    );
  }
  return step.work(parts, names);
}

function named([part]: Parts, names: Names): Value {
  const name = word(part);
  const value = names.get(name);
  if (value === undefined) throw new MeasureError("missing-input", `${name} is needed`);
  return value;
}

function binary(work: (a: number, b: number) => number): Step {
  return two((a, b, names) => pairwise(work, valueOf(a, names), valueOf(b, names)));
}

function compare(work: (a: number, b: number) => boolean): Step {
  return two((a, b, names) => work(asNumber(valueOf(a, names)), asNumber(valueOf(b, names))));
}

function logic(decides: boolean): Step {
  return two((a, b, names) => (truth(valueOf(a, names)) === decides ? decides : truth(valueOf(b, names))));
}

function two(work: (a: unknown, b: unknown, names: Names) => Value): Step {
  return { least: 2, most: 2, work: ([a, b], names) => work(a, b, names) };
}

function bind([name, value, body]: Parts, names: Names): Value {
  return valueOf(body, new Map([...names, [word(name), valueOf(value, names)]]));
}

function call([part, ...rest]: Parts, names: Names): Value {
  const name = word(part);
  const found = Object.hasOwn(CALLS, name) ? CALLS[name] : undefined;
  if (!found || rest.length < found.least || rest.length > found.most) {
    throw new MeasureError(
      "unknown-method",
      `the function ${name} is not known or has the wrong number of arguments`,
    );
  }
  return found.work(rest.map((one) => valueOf(one, names)));
}

function word(part: unknown): string {
  if (typeof part !== "string")
    throw new MeasureError("unknown-method", "the formula has a name that is not text");
  return part;
}

function truth(value: Value): boolean {
  if (typeof value !== "boolean") {
    throw new MeasureError("not-a-number", "the formula asks yes or no of something else");
  }
  return value;
}

function divide(a: number, b: number): number {
  if (b === 0) throw new MeasureError("outside-domain", "the formula divides by nothing");
  return finite(a / b);
}

function pairwise(work: (a: number, b: number) => number, a: Value, b: Value): Value {
  if (Array.isArray(a) && Array.isArray(b)) {
    if (a.length !== b.length) {
      throw new MeasureError("outside-domain", "two lists of different length cannot be combined");
    }
    return a.map((x, i) => work(x, b[i] ?? Number.NaN));
  }
  if (Array.isArray(a)) {
    const y = asNumber(b);
    return a.map((x) => work(x, y));
  }
  const x = asNumber(a);
  return over((y) => work(x, y), b);
}

/** Each step of a formula: least and most parts, and the work. */
const STEPS: ReadonlyMap<string, Step> = new Map<string, Step>([
  ["num", { least: 1, most: 1, work: ([value]) => number(value, "the formula") }],
  ["in", { least: 1, most: 1, work: named }],
  [
    "list",
    { least: 0, most: Infinity, work: (parts, names) => parts.map((part) => asNumber(valueOf(part, names))) },
  ],
  ["neg", { least: 1, most: 1, work: ([part], names) => over((x) => -x, valueOf(part, names)) }],
  ["add", binary((a, b) => finite(a + b))],
  ["sub", binary((a, b) => finite(a - b))],
  ["mul", binary((a, b) => finite(a * b))],
  ["div", binary(divide)],
  ["pow", binary(power)],
  ["lt", compare((a, b) => a < b)],
  ["le", compare((a, b) => a <= b)],
  ["gt", compare((a, b) => a > b)],
  ["ge", compare((a, b) => a >= b)],
  ["eq", compare((a, b) => a === b)],
  ["ne", compare((a, b) => a !== b)],
  ["and", logic(false)],
  ["or", logic(true)],
  ["not", { least: 1, most: 1, work: ([part], names) => !truth(valueOf(part, names)) }],
  [
    "if",
    {
      least: 3,
      most: 3,
      work: ([condition, yes, no], names) => valueOf(truth(valueOf(condition, names)) ? yes : no, names),
    },
  ],
  ["let", { least: 3, most: 3, work: bind }],
  ["call", { least: 1, most: Infinity, work: call }],
]);
