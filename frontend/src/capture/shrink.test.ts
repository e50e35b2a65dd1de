// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitted, isBlack, LONG_EDGE_PX, sha256Hex, shrink } from "./shrink";

const noSurface = () => {
  throw new Error("nothing is to be drawn");
};

describe("the size of a photo", () => {
  test.each([
    [
      { width: 4_000, height: 3_000 },
      { width: 1_600, height: 1_200 },
    ],
    [
      { width: 3_000, height: 4_000 },
      { width: 1_200, height: 1_600 },
    ],
    [
      { width: 800, height: 600 },
      { width: 800, height: 600 },
    ],
    [
      { width: 20_000, height: 2 },
      { width: 1_600, height: 1 },
    ],
  ])("%o becomes %o", (given, wanted) => {
    expect(fitted(given)).toEqual(wanted);
  });

  test("never exceeds the long edge and never grows", () => {
    const side = fc.integer({ min: 1, max: 30_000 });
    fc.assert(
      fc.property(side, side, (width, height) => {
        const fit = fitted({ width, height });
        expect(Math.max(fit.width, fit.height)).toBeLessThanOrEqual(LONG_EDGE_PX);
        expect(fit.width <= width && fit.height <= height).toBe(true);
      }),
    );
  });
});

test("a picture is black only when every sample is, whatever its opacity", () => {
  expect(isBlack(new Uint8ClampedArray([0, 3, 9, 255, 5, 5, 5, 255]))).toBe(true);
  expect(isBlack(new Uint8ClampedArray([0, 3, 9, 255, 5, 60, 5, 255]))).toBe(false);
});

test.each([
  ["text", "not a picture", "not-a-picture"],
  ["a JPEG of which only the start arrived", "\u00ff\u00d8\u00ff", "cut-off"],
])("%s is refused", async (_, text, code) => {
  const file = new Blob([Uint8Array.from([...text].map((c) => c.charCodeAt(0)))]);
  const refused = await shrink(file, noSurface);
  expect(refused).toEqual({ ok: false, code });
});

test("a blob is named by the SHA-256 of its bytes", async () => {
  const known = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  expect(await sha256Hex(new TextEncoder().encode("abc").buffer)).toBe(known);
});
