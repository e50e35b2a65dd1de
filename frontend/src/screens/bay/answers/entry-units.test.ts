/** In which units a reading may be typed. */
import { describe, expect, it } from "vitest";
import { answerText } from "../figures";
import { entryUnits, readTyped, usualUnit } from "./entry-units";

const TREAD = { unit: "mm", instruments: ["tread-gauge-0.1"] };
const RIM = { unit: "mm", instruments: ["dial-indicator-0.01"] };
const NUMBER = { kind: "number", unit: "mm", decimals: 2, range: [0, 20], instruments: [] } as const;

describe("the units of a reading", () => {
  it("start with the check's own and offer what gauges are marked in", () => {
    expect(entryUnits(RIM)).toEqual(["mm", "[in_i]"]);
    expect(entryUnits({ unit: "bar", instruments: [] })).toEqual(["bar", "kPa", "[psi]"]);
    expect(entryUnits({ unit: "{drop}", instruments: [] })).toEqual(["{drop}"]);
  });

  it("are 32nds for tread in a US-unit workshop, and the check's own in a metric one", () => {
    expect(usualUnit(TREAD, "us")).toBe("[in_i]/32");
    expect(usualUnit(TREAD, "metric")).toBe("mm");
    expect(usualUnit(RIM, "us")).toBe("[in_i]");
  });

  it("take 32nds as whole numbers, with or without the stroke", () => {
    expect(readTyped("5", "[in_i]/32")).toBe(5);
    expect(readTyped("5/32", "[in_i]/32")).toBe(5);
    expect(readTyped("5.5", "[in_i]/32")).toBeNull();
    expect(readTyped("5,5", "mm")).toBe(5.5);
  });
});

describe("a reading in another unit than the check's own", () => {
  it("is shown as it was typed", () => {
    const inches = { is: "number", value: 0.031, unit: "[in_i]", typed: "0.031" } as const;
    expect(answerText(inches, { ...NUMBER, range: [0, 20], instruments: [] })).toBe("0.031 in");
    const treads = { is: "spread", values: { inner: 5, outer: 7 }, unit: "[in_i]/32" } as const;
    expect(answerText(treads, { ...NUMBER, range: [0, 20], instruments: [] })).toBe("5 / 7/32 in");
  });
});
