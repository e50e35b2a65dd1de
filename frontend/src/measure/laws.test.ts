// @vitest-environment node
/** Laws of verdicts, units and formulas on the phone. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { UnitTable } from "./book";
import { ERROR_CODES, MeasureError } from "./errors";
import { DEEPEST, evaluate, LONGEST_LIST, MOST_NODES } from "./tree";
import { readingUncertainty, repeatsPart, resolutionPart } from "./uncertainty";
import { Units } from "./units";
import { settle, type State, verdict } from "./verdict";

const TABLE = join(import.meta.dirname, "../../../tests/vectors/measure-unit-table.json");
const units = new Units(JSON.parse(readFileSync(TABLE, "utf8")) as UnitTable);
const RISING: State[] = ["in-order", "too-close", "beyond"];
const reading = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const size = fc.double({ min: 1e-6, max: 1e3, noNaN: true });
const length = fc.constantFrom("mm", "[in_i]", "um", "m", "[mil_i]");

function rank(state: State): number {
  return RISING.indexOf(state);
}

function codeOf(run: () => unknown): string | null {
  try {
    run();
    return null;
  } catch (error) {
    if (error instanceof MeasureError) return error.code;
    throw error;
  }
}

describe("a verdict", () => {
  it("is never better for a higher reading against an upper limit", () => {
    fc.assert(
      fc.property(reading, reading, size, reading, (a, b, u, above) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(rank(verdict(low, u, { above }))).toBeLessThanOrEqual(rank(verdict(high, u, { above })));
      }),
    );
  });

  it("is never better for a lower reading against a lower limit", () => {
    fc.assert(
      fc.property(reading, reading, size, reading, (a, b, u, below) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(rank(verdict(high, u, { below }))).toBeLessThanOrEqual(rank(verdict(low, u, { below })));
      }),
    );
  });

  it("is too close to call when the limit lies inside the coverage interval", () => {
    const place = fc.double({ min: -0.999, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(reading, size, place, fc.boolean(), (value, u, part, upper) => {
        const limit = value + part * 2 * u;
        fc.pre(limit > value - 2 * u && limit < value + 2 * u);
        expect(verdict(value, u, upper ? { above: limit } : { below: limit })).toBe("too-close");
      }),
    );
  });

  it("does not hang on the unit", () => {
    fc.assert(
      fc.property(reading, size, reading, length, length, (value, u, limit, a, b) => {
        const apart = Math.min(Math.abs(limit - value - 2 * u), Math.abs(limit - value + 2 * u));
        fc.pre(apart > 1e-9 * Math.max(Math.abs(value), Math.abs(limit), u));
        const above = units.convert(limit, a, b);
        const judged = verdict(units.convert(value, a, b), units.convertDifference(u, a, b), { above });
        expect(judged).toBe(verdict(value, u, { above: limit }));
      }),
    );
  });

  it("is settled by what is said to settle it", () => {
    const few = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(few, size, fc.double({ min: 0, max: 100, noNaN: true }), (values, step, above) => {
        const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
        fc.pre(Math.abs(middle - above) > 1e-9);
        const { repeats, instruments } = settle(
          values,
          { resolution: step },
          { above },
          { fine: { resolution: step / 10 } },
        );
        const fine = readingUncertainty(values, { resolution: step / 10 });
        if (instruments.includes("fine"))
          expect(verdict(middle, fine * (1 - 1e-9), { above })).not.toBe("too-close");
        if (repeats === null) return;
        const scatter = repeatsPart(values) * Math.sqrt(values.length / repeats);
        const u = Math.max(scatter, resolutionPart(step));
        expect(verdict(middle, u * (1 - 1e-9), { above })).not.toBe("too-close");
      }),
    );
  });
});

describe("a unit", () => {
  it("comes back from a way round three", () => {
    fc.assert(
      fc.property(reading, length, length, length, (value, a, b, c) => {
        const there = units.convert(units.convert(value, a, b), b, c);
        expect(Math.abs(units.convert(there, c, a) - value)).toBeLessThanOrEqual(
          1e-12 * Math.max(Math.abs(value), 1e-9),
        );
      }),
    );
  });

  it("is read or refused, whatever the text", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[mkPag./{}[\]()123+' -]{0,12}$/)), (code) => {
        const refused = codeOf(() => units.read(code));
        if (refused === null) expect(units.read(code).factor).toBeGreaterThan(0);
        else expect(refused).toBe("unknown-unit");
      }),
    );
  });
});

describe("a formula", () => {
  const nested = (depth: number): unknown[] => {
    let tree: unknown[] = ["num", 1];
    for (let i = 1; i < depth; i++) tree = ["neg", tree];
    return tree;
  };

  it("is refused when it is deeper than allowed", () => {
    expect(codeOf(() => evaluate(nested(DEEPEST), {}))).toBeNull();
    expect(codeOf(() => evaluate(nested(DEEPEST + 1), {}))).toBe("too-large");
    expect(codeOf(() => evaluate(nested(100_000), {}))).toBe("too-large");
  });

  it("is refused when it or a list is longer than allowed", () => {
    const numbers = new Array<unknown>(MOST_NODES - 2).fill(["num", 1]);
    expect(evaluate(["call", "sum", ["list", ...numbers]], {})).toBe(MOST_NODES - 2);
    expect(codeOf(() => evaluate(["call", "sum", ["list", ["num", 1], ...numbers]], {}))).toBe("too-large");
    expect(codeOf(() => evaluate(["in", "xs"], { xs: new Array<number>(LONGEST_LIST).fill(0) }))).toBeNull();
    expect(codeOf(() => evaluate(["in", "xs"], { xs: new Array<number>(LONGEST_LIST + 1).fill(0) }))).toBe(
      "too-large",
    );
  });

  it("is refused with an input that cannot be counted", () => {
    expect(codeOf(() => evaluate(["in", "x"], { x: Number.NaN }))).toBe("not-a-number");
    expect(codeOf(() => evaluate(["num", Infinity], {}))).toBe("not-a-number");
  });

  it("gives a value or a known code, whatever rubbish it is", () => {
    const leaf = fc.oneof(
      fc.constantFrom("num", "in", "add", "if", "call", "list", "x"),
      fc.double(),
      fc.constant(null),
    );
    const { tree } = fc.letrec<{ tree: unknown[] }>((tie) => ({
      tree: fc.array(fc.oneof({ maxDepth: 4 }, leaf, tie("tree")), { maxLength: 4 }),
    }));
    fc.assert(
      fc.property(tree, (one) => {
        const code = codeOf(() => evaluate(one, { x: 1 }));
        expect(code === null || ERROR_CODES.some((known) => known === code)).toBe(true);
      }),
    );
  });
});
