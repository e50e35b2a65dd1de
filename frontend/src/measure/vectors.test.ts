// @vitest-environment node
/** The vectors and worked examples that both languages share. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { UnitTable } from "./book";
import { ERROR_CODES, MeasureError } from "./errors";
import { FUNCTIONS } from "./functions";
import type { Given } from "./given";
import { type Quantity, work, type Workable } from "./methods";
import { evaluate, type Inputs } from "./tree";
import * as uncertainty from "./uncertainty";
import { Units } from "./units";
import { type Bounds, settle, verdict } from "./verdict";

const ROOT = join(import.meta.dirname, "../../..");

function read<T>(path: string): T {
  return JSON.parse(readFileSync(join(ROOT, path), "utf8")) as T;
}

function cases<T>(name: string): (T & Outcome)[] {
  return read<{ cases: (T & Outcome)[] }>(`tests/vectors/measure-${name}.json`).cases;
}

type Outcome = { expected?: unknown; code?: string; rtol?: number };
type Gauge = uncertainty.Gauge;
type UnitCase = { do: string; value: number; from: string; to: string };
type TreeCase = { tree: unknown[]; inputs: Inputs };
type CodeCase = { function: string; inputs: Given };
type MethodCase = { method: Workable; inputs: Record<string, Quantity> };
type VerdictCase = { do: string; value: number; u: number; bounds: Bounds; k: number } & {
  values: number[];
  instrument: Gauge;
  others: Record<string, Gauge>;
};
type UncertaintyCase = { do: string } & Record<"step" | "limit" | "u" | "probability" | "freedom", number> & {
    values: number[];
    parts: number[];
    freedoms: number[];
    instrument: Gauge;
  };
type Example = {
  id: string;
  method: string;
  inputs: Record<string, { value: number | string | string[]; unit: string }>;
  expected: { value: unknown; unit: string };
  rtol: number;
  atol?: number;
};

const units = new Units(read<UnitTable>("tests/vectors/measure-unit-table.json"));

/** Equal in shape and text; numbers within rtol, or within atol of nothing. */
function agrees(got: unknown, expected: unknown, rtol: number, atol = rtol * 1e-3): boolean {
  if (typeof expected === "number") {
    return typeof got === "number" && Math.abs(got - expected) <= Math.max(rtol * Math.abs(expected), atol);
  }
  if (typeof expected !== "object" || expected === null) return got === expected;
  if (typeof got !== "object" || got === null || Array.isArray(got) !== Array.isArray(expected)) return false;
  const mine = new Map(Object.entries(got));
  const theirs = Object.entries(expected);
  return mine.size === theirs.length && theirs.every(([key, value]) => agrees(mine.get(key), value, rtol));
}

function check(run: () => unknown, { expected, code, rtol = 0 }: Outcome): void {
  if (code === undefined) {
    const got = run();
    expect(agrees(got, expected, rtol), `gave ${JSON.stringify(got)}, not ${JSON.stringify(expected)}`).toBe(
      true,
    );
    return;
  }
  expect(ERROR_CODES).toContain(code);
  expect(codeOf(run)).toBe(code);
}

function codeOf(run: () => unknown): string {
  try {
    return `gave ${JSON.stringify(run())}`;
  } catch (error) {
    if (error instanceof MeasureError && error.detail) return error.code;
    throw error;
  }
}

function workUnits({ do: what, value, from, to }: UnitCase): unknown {
  if (what === "compatible") return units.compatible(from, to);
  return what === "convert" ? units.convert(value, from, to) : units.convertDifference(value, from, to);
}

const UNCERTAINTY = new Map<string, (one: UncertaintyCase) => number>([
  ["resolution_part", (one) => uncertainty.resolutionPart(one.step)],
  ["limits_part", (one) => uncertainty.limitsPart(one.limit)],
  ["spread", (one) => uncertainty.spread(one.values)],
  ["repeats_part", (one) => uncertainty.repeatsPart(one.values)],
  ["combined", (one) => uncertainty.combined(one.parts)],
  ["reading_uncertainty", (one) => uncertainty.readingUncertainty(one.values, one.instrument)],
  ["effective_freedom", (one) => uncertainty.effectiveFreedom(one.u, one.parts, one.freedoms)],
  ["coverage_factor", (one) => uncertainty.coverageFactor(one.probability, one.freedom)],
]);

function workVerdict(one: VerdictCase): unknown {
  if (one.do === "verdict") return verdict(one.value, one.u, one.bounds, one.k);
  return settle(one.values, one.instrument, one.bounds, one.others, one.k);
}

function inItsUnit(
  unit: string | undefined,
  value: number | string | string[],
  written: string,
): Given[string] {
  if (typeof value !== "number" || unit === undefined) return value;
  return unit === "1" ? value : units.convert(value, written, unit);
}

describe("shared vectors", () => {
  it.each(cases<UnitCase>("units"))("convert $value $from to $to", (one) => {
    check(() => workUnits(one), one);
  });
  it.each(cases<TreeCase>("tree"))("work out $tree", (one) => {
    check(() => evaluate(one.tree, one.inputs), one);
  });
  it.each(cases<UncertaintyCase>("uncertainty"))("tell the uncertainty by $do", (one) => {
    check(() => UNCERTAINTY.get(one.do)?.(one), one);
  });
  it.each(cases<VerdictCase>("verdict"))("judge $value within $bounds", (one) => {
    check(() => workVerdict(one), one);
  });
  it.each(cases<CodeCase>("codes"))("read by $function", (one) => {
    check(() => FUNCTIONS[one.function]?.work(one.inputs, units), one);
  });
  it.each(cases<MethodCase>("methods"))("work out the method with $inputs", (one) => {
    check(() => work(one.method, one.inputs, units), one);
  });
});

describe("worked examples", () => {
  const examples = ["shop-maths", "independent"].flatMap((name) =>
    read<Example[]>(`seed_checklists/examples/${name}.json`),
  );
  const worked = examples.filter((example) => Object.hasOwn(FUNCTIONS, example.method));

  it.each(worked)("$id comes out as published", ({ method, inputs, expected, rtol, atol }) => {
    const named = FUNCTIONS[method];
    const given = Object.entries(inputs).map(([name, one]): [string, Given[string]] => [
      name,
      inItsUnit(named?.inputs[name], one.value, one.unit),
    ]);
    const got = named?.work(Object.fromEntries(given), units);
    const { value, unit } = expected;
    const output = named?.output.startsWith("{") ? "1" : named?.output;
    const wanted = typeof value === "number" ? inItsUnit(output, value, unit) : value;
    expect(agrees(got, wanted, rtol || 1e-15, atol), `gave ${JSON.stringify(got)}`).toBe(true);
  });

  it("cover every function", () => {
    const covered = new Set(worked.map((example) => example.method));
    expect(Object.keys(FUNCTIONS).filter((name) => !covered.has(name))).toEqual([]);
  });
});
