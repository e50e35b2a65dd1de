/** Figures of a sound: how strong, how peaked, how spiky, and at which frequencies. */
import { powerSpectrum } from "./fft";

export type SoundFigures = {
  /** root of the mean square, of full scale */
  rms: number;
  /** largest magnitude, of full scale */
  peak: number;
  /** peak over rms, no unit; 1.41 for a sine, 1 for a square wave */
  crest: number;
  /** fourth moment over the squared second, no unit; 3 for noise, 1.5 for a sine, more when something knocks */
  kurtosis: number;
  /** the strongest frequency, Hz; null in silence */
  strongest_hz: number | null;
};

/** Formulas: moments about the mean, as in any book of statistics. Silence has crest and kurtosis 0. */
export function soundFigures(samples: Float32Array, rate_hz: number): SoundFigures {
  const mean = average(samples, (value) => value);
  const second = average(samples, (value) => (value - mean) ** 2);
  const fourth = average(samples, (value) => (value - mean) ** 4);
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value - mean)), 0);
  const rms = Math.sqrt(second);
  return {
    rms,
    peak,
    crest: rms === 0 ? 0 : peak / rms,
    kurtosis: second === 0 ? 0 : fourth / second ** 2,
    strongest_hz: rms === 0 ? null : strongest(samples, rate_hz),
  };
}

/** Levels by frequency: Hz and share of the total power, 0 to 1. */
export function spectrum(
  samples: Float32Array,
  rate_hz: number,
  size = 4096,
): { hz: number; share: number }[] {
  const power = powerSpectrum(samples, size);
  const total = power.reduce((sum, value) => sum + value, 0);
  return Array.from(power, (value, bin) => ({
    hz: (bin * rate_hz) / size,
    share: total === 0 ? 0 : value / total,
  }));
}

function strongest(samples: Float32Array, rate_hz: number): number {
  const [, ...above] = spectrum(samples, rate_hz);
  return above.reduce((best, one) => (one.share > best.share ? one : best), { hz: 0, share: 0 }).hz;
}

function average(samples: Float32Array, of: (value: number) => number): number {
  if (samples.length === 0) return 0;
  return samples.reduce((sum, value) => sum + of(value), 0) / samples.length;
}
