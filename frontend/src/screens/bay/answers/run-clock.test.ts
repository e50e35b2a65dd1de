/** Promises of a timed run. */
import { describe, expect, it } from "vitest";
import {
  addReading,
  asRun,
  countOne,
  dueTimes,
  elapsed,
  NO_RUN,
  nextDue,
  samples,
  startRun,
  type RunSpec,
} from "./run-clock";

const spec = (part: Partial<RunSpec>): RunSpec => ({
  kind: "run",
  unit: "kPa",
  decimals: 1,
  range: [0, 500],
  every_s: 10,
  seconds: 60,
  shape: "gauge",
  instruments: [],
  ...part,
});

const started = startRun(NO_RUN, 0);

describe("a timed run", () => {
  it("wants a reading at the start and at every beep up to the end", () => {
    expect(dueTimes(spec({ seconds: 30 }))).toEqual([0, 10, 20, 30]);
  });
  it("wants one reading before and one after a countdown", () => {
    expect(dueTimes(spec({ shape: "countdown", every_s: null, seconds: 300 }))).toEqual([0, 300]);
  });
  it("writes a reading down at the beep it belongs to, however late it was typed", () => {
    const run = addReading(spec({}), started, 20, 300);
    expect(samples(spec({}), addReading(spec({}), run, 19.1, 14_900), 20_000)).toEqual([
      [0, 20],
      [10, 19.1],
    ]);
  });
  it("writes down the moment itself when there is no schedule", () => {
    const free = spec({ every_s: null });
    expect(samples(free, addReading(free, startRun(NO_RUN, 1000), 5, 8_260), 9_000)).toEqual([[7.3, 5]]);
  });
  it("knows that every due reading is in", () => {
    const short = spec({ seconds: 10 });
    const run = [20, 19].reduce((so_far, value) => addReading(short, so_far, value, 10_000), started);
    expect(nextDue(short, run)).toBeNull();
  });
  it("counts drops and gives the count its zero and its end", () => {
    const count = spec({ shape: "count", every_s: null, seconds: 60, unit: "{drop}" });
    const run = [4000, 9000, 15_500].reduce(countOne, started);
    expect(samples(count, run, 60_400)).toEqual([
      [0, 0],
      [4, 1],
      [9, 2],
      [15.5, 3],
      [60, 3],
    ]);
  });
  it("goes on running while the app is dead", () => {
    const kept: unknown = JSON.parse(JSON.stringify(startRun(NO_RUN, 5_000)));
    const run = asRun(kept);
    expect(run && elapsed(run, 65_000)).toBe(60_000);
  });
  it("is not made from a draft of another kind", () => {
    expect([asRun("12"), asRun(null), asRun({ typed: "1" })]).toEqual([null, null, null]);
  });
});
