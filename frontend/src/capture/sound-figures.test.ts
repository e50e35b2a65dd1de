// @vitest-environment node
import { describe, expect, test } from "vitest";
import { fft } from "./fft";
import { soundFigures, spectrum } from "./sound-figures";
import { readWav } from "./wav";

const RATE_HZ = 8_000;
const sine = (hz: number, count = RATE_HZ) =>
  Float32Array.from({ length: count }, (_, n) => 0.5 * Math.sin((2 * Math.PI * hz * n) / RATE_HZ));

describe("figures of a sound", () => {
  test("a sine has crest factor root two and kurtosis one and a half", () => {
    const { rms, peak, crest, kurtosis } = soundFigures(sine(250), RATE_HZ);
    expect(rms).toBeCloseTo(0.5 / Math.SQRT2, 4);
    expect(peak).toBeCloseTo(0.5, 4);
    expect(crest).toBeCloseTo(Math.SQRT2, 4);
    expect(kurtosis).toBeCloseTo(1.5, 3);
  });

  test("a square wave has crest factor and kurtosis one", () => {
    const square = Float32Array.from({ length: 3_200 }, (_, n) => (n % 32 < 16 ? 1 : -1));
    expect(soundFigures(square, RATE_HZ)).toMatchObject({ crest: 1, kurtosis: 1 });
  });

  test("a knock now and then shows in the kurtosis far more than in the loudness", () => {
    const calm = soundFigures(sine(250), RATE_HZ);
    const knocking = soundFigures(
      sine(250).map((value, n) => (n % 2_000 < 3 ? value + 4 : value)),
      RATE_HZ,
    );
    expect(knocking.kurtosis / calm.kurtosis).toBeGreaterThan(10);
    expect(knocking.rms / calm.rms).toBeLessThan(1.2);
  });

  test("the strongest frequency is found within one bin", () => {
    expect(Math.abs((soundFigures(sine(437), RATE_HZ).strongest_hz ?? 0) - 437)).toBeLessThan(
      RATE_HZ / 4_096,
    );
  });

  test("silence and nothing at all have no frequency", () => {
    expect(soundFigures(new Float32Array(100), RATE_HZ)).toMatchObject({
      rms: 0,
      crest: 0,
      strongest_hz: null,
    });
    expect(soundFigures(new Float32Array(), RATE_HZ)).toMatchObject({ rms: 0, strongest_hz: null });
  });

  test("the shares of all frequencies add up to the whole", () => {
    expect(spectrum(sine(437), RATE_HZ).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });
});

test("the transform agrees with the definition of the discrete Fourier transform", () => {
  const values = Float64Array.from({ length: 16 }, (_, n) => Math.sin(n * n) + n / 7);
  const [re, im] = [values.slice(), new Float64Array(16)];
  fft(re, im);
  for (let bin = 0; bin < 16; bin += 1) {
    const angle = (n: number) => (-2 * Math.PI * bin * n) / 16;
    expect(re[bin]).toBeCloseTo(
      values.reduce((sum, value, n) => sum + value * Math.cos(angle(n)), 0),
      9,
    );
    expect(im[bin]).toBeCloseTo(
      values.reduce((sum, value, n) => sum + value * Math.sin(angle(n)), 0),
      9,
    );
  }
});

/** A WAV file with these sample bytes. */
function wav(coding: number, channels: number, bits: number, data: number[]): ArrayBuffer {
  const view = new DataView(new ArrayBuffer(44 + data.length));
  const tag = (at: number, text: string) =>
    [...text].forEach((c, n) => view.setUint8(at + n, c.charCodeAt(0)));
  tag(0, "RIFF");
  tag(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, coding, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, RATE_HZ, true);
  view.setUint16(34, bits, true);
  tag(36, "data");
  view.setUint32(40, data.length, true);
  data.forEach((byte, n) => view.setUint8(44 + n, byte));
  return view.buffer;
}

describe("a WAV file", () => {
  test.each([
    [8, [128, 255, 0], [0, 127 / 128, -1]],
    [16, [0, 0, 0, 0x40, 0, 0x80], [0, 0.5, -1]],
    [24, [0, 0, 0x40, 0, 0, 0x80], [0.5, -1]],
    [32, [0, 0, 0, 0x40, 0, 0, 0, 0x80], [0.5, -1]],
  ])("of %i bits is read in full scale", (bits, data, samples) => {
    expect(readWav(wav(1, 1, bits, data))).toEqual({ samples: Float32Array.from(samples), rate_hz: RATE_HZ });
  });

  test("of two channels is mixed into one", () => {
    expect(readWav(wav(1, 2, 16, [0, 0x40, 0, 0]))?.samples).toEqual(Float32Array.from([0.25]));
  });

  test("that is something else or packed is not read", () => {
    expect(readWav(new ArrayBuffer(4))).toBeNull();
    expect(readWav(new TextEncoder().encode("OggS and then more").buffer)).toBeNull();
    expect(readWav(wav(85, 1, 16, [0, 0]))).toBeNull();
  });

  test("cut in the middle gives what is there", () => {
    expect(readWav(wav(1, 1, 16, [0, 0, 0, 0x40]).slice(0, 46))?.samples).toEqual(Float32Array.from([0]));
  });
});
