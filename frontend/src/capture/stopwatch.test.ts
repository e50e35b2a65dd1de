// @vitest-environment node
import { describe, expect, test } from "vitest";
import {
  elapsedMs,
  isRunning,
  lap,
  NEW_STOPWATCH,
  nextDue_s,
  readStopwatch,
  samplesOf,
  start,
  stop,
} from "./stopwatch";

describe("a stopwatch", () => {
  const running = start(NEW_STOPWATCH, 10_000);

  test("goes on while the app is away, for it knows only when it was started", () => {
    const back = readStopwatch(JSON.parse(JSON.stringify(running)));
    expect(back && elapsedMs(back, 75_000)).toBe(65_000);
  });

  test("stands still once stopped, and a second start does not lose the first", () => {
    const stopped = stop(start(running, 20_000), 30_000);
    expect([elapsedMs(stopped, 99_000), isRunning(stopped)]).toEqual([20_000, false]);
  });

  test("never runs backwards when the phone's clock is set back", () => {
    expect(elapsedMs(running, 5_000)).toBe(0);
  });

  test("keeps readings at the second they were taken", () => {
    const read = lap(lap(running, 20, 10_040), 19.1, 20_260);
    expect(samplesOf(read)).toEqual([
      [0, 20],
      [10.3, 19.1],
    ]);
  });

  test("tells when the next reading is due, and when all are in", () => {
    const two = lap(lap(running, 1, 10_000), 2, 20_000);
    expect([
      nextDue_s(running, 10, 20),
      nextDue_s(two, 10, 20),
      nextDue_s(lap(two, 3, 30_000), 10, 20),
    ]).toEqual([0, 20, null]);
  });
});

test.each([
  [null],
  ["12"],
  [{}],
  [{ started_at: "1", stopped_at: null, laps: [] }],
  [{ started_at: 1, stopped_at: null, laps: [{}] }],
])("a draft that is no stopwatch is not taken for one: %o", (kept) => {
  expect(readStopwatch(kept)).toBeNull();
});
