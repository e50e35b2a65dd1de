/** Promises of the tap gate. */
import { describe, expect, it } from "vitest";
import { makeGate } from "./calm";

describe("a tap gate", () => {
  it("lets the first tap of a storm through and no other within the quiet time", () => {
    const gate = makeGate(400);
    const passed = [1000, 1050, 1200, 1399].filter((at) => gate.pass(at));
    expect(passed).toEqual([1000]);
  });

  it("opens again when the quiet time is over", () => {
    const gate = makeGate(400);
    gate.pass(1000);
    expect(gate.pass(1400)).toBe(true);
  });

  it("is deaf for the quiet time after it was closed", () => {
    const gate = makeGate(400);
    gate.close(500);
    expect([gate.pass(899), gate.pass(900)]).toEqual([false, true]);
  });

  it("is not kept shut by the taps it ignored", () => {
    const gate = makeGate(400);
    gate.pass(0);
    gate.pass(390);
    expect(gate.pass(401)).toBe(true);
  });
});
