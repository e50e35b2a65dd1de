/** Marks drawn on a copy of a photo. */
import { describe, expect, it } from "vitest";
import { hatchOf, headOf, markOf, pointIn } from "./marks";

describe("a mark", () => {
  it("lies where the finger was, whatever the size of the picture on the screen", () => {
    const box = { left: 10, top: 100, width: 200, height: 400 };
    expect(pointIn(box, 110, 200)).toEqual({ x: 0.5, y: 0.25 });
    expect(pointIn(box, -50, 9_999)).toEqual({ x: 0, y: 1 });
  });

  it("is none when the finger only slipped", () => {
    expect(markOf("ring", { x: 0.5, y: 0.5 }, { x: 0.505, y: 0.5 })).toBeNull();
    expect(markOf("ring", { x: 0.5, y: 0.5 }, { x: 0.6, y: 0.5 })).not.toBeNull();
  });
});

describe("an arrow's head", () => {
  it("starts at the tip and points back, the same on both sides", () => {
    const [left, right] = headOf({ x: 0, y: 0 }, { x: 100, y: 0 }, 10);
    expect(left?.[0]).toEqual({ x: 100, y: 0 });
    expect(left?.[1].x).toBeCloseTo(right?.[1].x ?? NaN);
    expect(left?.[1].y).toBeCloseTo(-(right?.[1].y ?? NaN));
    expect(left?.[1].x).toBeLessThan(100);
  });
});

describe("a hatched area", () => {
  it("is filled from corner to corner and never crosses its edge", () => {
    const lines = hatchOf({ x: 50, y: 30 }, { x: 10, y: 10 }, 5);
    expect(lines).toHaveLength(11);
    for (const point of lines.flat()) {
      expect(point.x).toBeGreaterThanOrEqual(10);
      expect(point.x).toBeLessThanOrEqual(50);
      expect(point.y).toBeGreaterThanOrEqual(10);
      expect(point.y).toBeLessThanOrEqual(30);
    }
  });
});
