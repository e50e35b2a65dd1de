/** Promises of the plate field. */
import { describe, expect, it } from "vitest";
import { readPlate } from "./plate";

const HERE = ["AA 99 AAA", "AAA-9999"];

describe("a plate as it is typed", () => {
  it("gets the spaces and capitals of the shop's form", () => {
    expect(readPlate("ts41bkr", HERE)).toEqual({ text: "TS 41 BKR", usual: true });
    expect(readPlate(" rdg 5088", HERE)).toEqual({ text: "RDG-5088", usual: true });
  });
  it("stays as typed, and is called unusual, when it is in none of the forms", () => {
    expect(readPlate("kp 118 st", HERE)).toEqual({ text: "KP 118 ST", usual: false });
    expect(readPlate("TS 41 BK", HERE).usual).toBe(false);
  });
  it("keeps its letters whatever their script", () => {
    expect(readPlate("жк12ёшщ", HERE)).toEqual({ text: "ЖК 12 ЁШЩ", usual: true });
    expect(readPlate("กข 1234", ["AA 9999"])).toEqual({ text: "กข 1234", usual: true });
  });
  it("takes a letter or a digit where the form leaves it open", () => {
    expect(readPlate("a1b2", ["??-??"])).toEqual({ text: "A1-B2", usual: true });
  });
  it("is never unusual in a shop that told no form", () => {
    expect(readPlate("anything 1", [])).toEqual({ text: "ANYTHING 1", usual: true });
  });
});
