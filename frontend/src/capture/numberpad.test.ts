// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseThirtySeconds, parseTyped, press, type PadKey } from "./numberpad";

describe("what was typed", () => {
  test.each([
    ["0,12", 0.12],
    ["0.12", 0.12],
    [",5", 0.5],
    ["5,", 5],
    ["-3,2", -3.2],
    ["−3.2", -3.2],
    [" 164200 ", 164_200],
  ])("%s means %d", (typed, value) => {
    expect(parseTyped(typed)).toEqual({ ok: true, value });
  });

  test.each([
    ["", "empty"],
    ["-", "unfinished"],
    [",", "unfinished"],
    ["1,2,3", "not-a-number"],
    ["1.234,5", "not-a-number"],
    ["12 3", "not-a-number"],
    ["1e3", "not-a-number"],
  ])("%s is refused as %s", (typed, code) => {
    expect(parseTyped(typed)).toMatchObject({ ok: false, code });
  });

  test.each([
    ["5", 5],
    ["5/32", 5],
  ])("tread %s is %i thirty-seconds", (typed, value) => {
    expect(parseThirtySeconds(typed)).toEqual({ ok: true, value });
  });

  test("a tread depth in other fractions is refused", () => {
    expect(parseThirtySeconds("5/16")).toMatchObject({ ok: false, code: "not-a-fraction" });
  });
});

describe("keys", () => {
  const key = fc.constantFrom<PadKey>("0", "1", "5", "9", ",", ".", "sign");

  test("no digit is ever lost, whatever else is pressed", () => {
    fc.assert(
      fc.property(fc.array(key, { maxLength: 30 }), (keys) => {
        const typed = keys.reduce(press, "");
        expect(typed.replace(/\D/g, "")).toBe(keys.join("").replace(/\D/g, ""));
      }),
    );
  });

  test("whatever is pressed, as soon as there is a digit it is a number", () => {
    fc.assert(
      fc.property(fc.array(key, { maxLength: 15 }), (keys) => {
        const typed = keys.reduce(press, "");
        if (/\d/.test(typed)) expect(parseTyped(typed).ok).toBe(true);
      }),
    );
  });

  test("the sign can be set at any time and taken back", () => {
    expect(press(press("12", "sign"), "sign")).toBe("12");
  });
});
