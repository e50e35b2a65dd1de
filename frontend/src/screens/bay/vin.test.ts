/** Promises of the VIN field. */
import { describe, expect, it } from "vitest";
import { readVin as read, vinIn } from "./vin";

const readVin = (typed: string) => read(typed, 2026);

describe("a VIN as it is typed", () => {
  it("is told right when its check digit agrees", () => {
    expect(readVin("11111111111111111").digit).toBe("right");
  });
  it("is only called odd, not refused, when its check digit does not agree", () => {
    expect(readVin("11111111211111111")).toMatchObject({
      text: "11111111211111111",
      wrong: [],
      digit: "other",
    });
  });
  it("has the places of I, O and Q pointed at, counted from one", () => {
    expect(readVin("1O11I11Q").wrong).toEqual([2, 5, 8]);
  });
  it("is not judged before it is whole", () => {
    expect(readVin("1111")).toMatchObject({ digit: null, region: null, years: [] });
  });
  it("loses spaces and dashes and gains capitals", () => {
    expect(readVin("1m8-gdm9a xkp042788")).toMatchObject({
      text: "1M8GDM9AXKP042788",
      wrong: [],
      digit: "right",
    });
  });
});

describe("what a whole VIN tells", () => {
  it("is its region and, by the rule of North America, one model year", () => {
    expect(readVin("1M8GDM9AXKP042788")).toMatchObject({ region: "north-america", years: [1989] });
    expect(readVin("1M8GDMXAXKP042788").years).toEqual([2019]);
  });
  it("is elsewhere both years that position 10 may mean, the later first, none in the future", () => {
    expect(readVin("WTERNSTREET712345")).toMatchObject({
      region: "europe",
      years: [2014, 1984],
    });
    expect(read("WTE1NST1EAB012345", 2026)).toMatchObject({ years: [2010, 1980] });
    expect(read("WTE1NST1E9B012345", 2026).years).toEqual([2009]);
  });
});

describe("a VIN in the text of a code", () => {
  it("is found behind the sign that some labels put before it, and among other words", () => {
    expect(vinIn("I1M8GDM9AXKP042788")).toBe("1M8GDM9AXKP042788");
    expect(vinIn("VIN 1m8gdm9axkp042788 / TSG 482")).toBe("1M8GDM9AXKP042788");
  });
  it("is taken with an odd check digit, but one that agrees goes before it", () => {
    expect(vinIn("WTE1NST1E9B012345")).toBe("WTE1NST1E9B012345");
    expect(vinIn("X1M8GDM9AXKP042788")).toBe("1M8GDM9AXKP042788");
  });
  it("is none in anything else", () => {
    expect(vinIn("PART 4711")).toBeNull();
    expect(vinIn("")).toBeNull();
  });
});
