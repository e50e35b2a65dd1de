/** The line a run draws. */
import { expect, it } from "vitest";
import { plotOf } from "./run-plot";

it("draws the first reading at the left and each later one at its time, high readings high", () => {
  expect(
    plotOf(
      [
        [0, 20],
        [10, 15],
        [20, 10],
      ],
      40,
    ),
  ).toEqual({ points: "0,0 75,50 150,100", lo: 10, hi: 20 });
});

it("draws readings that do not change in the middle, and nothing before there is one", () => {
  expect(
    plotOf(
      [
        [0, 7],
        [5, 7],
      ],
      10,
    )?.points,
  ).toBe("0,50 150,50");
  expect(plotOf([], 10)).toBeNull();
});

it("makes room for readings after the planned end", () => {
  expect(
    plotOf(
      [
        [0, 1],
        [20, 2],
      ],
      10,
    )?.points,
  ).toBe("0,100 300,0");
});
