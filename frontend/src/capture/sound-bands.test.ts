/** Levels by pitch. */
import { expect, test } from "vitest";
import { bandsOf, levelOf } from "./sound-bands";

const RATE = 48_000;
const sine = (hz: number, size: number) =>
  Float32Array.from({ length: RATE * 5 }, (_, at) => size * Math.sin((2 * Math.PI * hz * at) / RATE));
const loudest = (samples: Float32Array) =>
  bandsOf(samples, RATE).reduce((best, band) => (band.db > best.db ? band : best));

test("a pure tone stands in its own band, at its own level", () => {
  const found = loudest(sine(1000, 1));
  expect(found.hz).toBeCloseTo(1000);
  expect(found.db).toBeCloseTo(-3.01, 1);
});

test("half the size is 6 dB less, at every pitch", () => {
  for (const hz of [50, 250, 5_000]) {
    expect(loudest(sine(hz, 0.5)).db - loudest(sine(hz, 1)).db).toBeCloseTo(-6.02, 1);
  }
});

test("silence has a level too, and no band is below it", () => {
  expect(levelOf(0)).toBe(-120);
  expect(bandsOf(new Float32Array(100), RATE).every((band) => band.db === -120)).toBe(true);
});
