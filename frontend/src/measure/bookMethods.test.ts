// @vitest-environment node
/** Every worked example of every method of the book, worked out by the phone. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { UnitTable } from "./book";
import { type Quantity, work, type Workable } from "./methods";
import { Units } from "./units";

type Case = {
  id: string;
  method: string;
  inputs: Record<string, Quantity>;
  expected: unknown;
  rtol: number;
  atol?: number;
};

const VECTORS = join(import.meta.dirname, "../../../tests/vectors");

function read<T>(name: string): T {
  return JSON.parse(readFileSync(join(VECTORS, name), "utf8")) as T;
}

const { methods, cases } = read<{ methods: Record<string, Workable>; cases: Case[] }>("book-methods.json");
const units = new Units(read<UnitTable>("measure-unit-table.json"));

describe("the methods of the book", () => {
  it.each(cases)("$method gives the answer of $id", ({ method, inputs, expected, rtol, atol = 1e-12 }) => {
    const known = methods[method];
    if (!known) throw new Error(`${method} is not among the methods`);
    const { value } = work(known, inputs, units);
    if (typeof expected !== "number") {
      expect(value).toEqual(expected);
      return;
    }
    const miss = typeof value === "number" ? Math.abs(value - expected) : Infinity;
    expect(miss, `gave ${String(value)}, not ${String(expected)}`).toBeLessThanOrEqual(
      Math.max((rtol || 1e-15) * Math.abs(expected), atol),
    );
  });
});
