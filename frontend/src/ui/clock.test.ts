/** Promises of the stopwatch's figures. */
import { describe, expect, it } from "vitest";
import { clockText } from "./clock";

describe("the stopwatch's figures", () => {
  it("shows minutes, seconds and tenths", () => {
    expect(clockText(83_450, true)).toBe("1:23.4");
  });
  it("shows whole seconds when tenths are not asked for", () => {
    expect(clockText(299_999, false)).toBe("4:59");
  });
  it("never goes below zero", () => {
    expect(clockText(-20, true)).toBe("0:00.0");
  });
});
