/** Promises of a figure on the screen: what was typed is what is shown. */
import { describe, expect, it } from "vitest";
import type { AnswerSpec } from "../../measure/book";
import { answerText } from "./figures";

const WHOLE: AnswerSpec = { kind: "number", unit: "Cel", decimals: 0, range: [-20, 300], instruments: [] };
const TREAD: AnswerSpec = {
  kind: "spread",
  unit: "mm",
  decimals: 1,
  range: [0, 20],
  points: [],
  instruments: [],
};

describe("an answer in figures", () => {
  it("shows the decimals that were typed, even where the check asks for fewer", () => {
    const typed = (value: number, text: string) =>
      answerText({ is: "number", value, unit: "Cel", typed: text }, WHOLE);
    expect(typed(41.5, "41,5")).toBe("41.5 °C");
    expect(typed(42, "42")).toBe("42 °C");
    expect(typed(41.66666, "41,7")).toBe("41.7 °C");
  });

  it("shows the check's own decimals where fewer were typed, and every digit of a set of points", () => {
    expect(answerText({ is: "spread", values: { a: 2, b: 4.65 }, unit: "mm" }, TREAD)).toBe("2.0 / 4.65 mm");
  });
});
