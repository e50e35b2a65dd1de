/** How loud a sound is at each pitch: thirds of octaves, on one scale, so that two sounds can be laid over each other. */
import { spectrum, soundFigures } from "./sound-figures";

export type Band = { hz: number; db: number };

/** Centres 1000 Hz * 2^(n/3), from about 25 Hz to 10 kHz: where hums, growls and knocks of wheels lie. */
const FIRST = -16;
const LAST = 10;
const SILENCE_DB = -120;
/** The middle of the sound is enough for its pitch, and keeps a phone from stalling over a long one. */
const LOOKED_AT_S = 4;

/** Levels in dB of full scale (a full-scale sine has -3 dB); silence and what is below it is -120. */
export function bandsOf(samples: Float32Array, rate_hz: number): Band[] {
  const middle = middleOf(samples, Math.round(LOOKED_AT_S * rate_hz));
  const { rms } = soundFigures(middle, rate_hz);
  const lines = spectrum(middle, rate_hz, 8192);
  return Array.from({ length: LAST - FIRST + 1 }, (_, at) => {
    const hz = 1000 * 2 ** ((FIRST + at) / 3);
    const [lo, hi] = [hz * 2 ** (-1 / 6), hz * 2 ** (1 / 6)];
    const share = lines.reduce((sum, line) => (line.hz >= lo && line.hz < hi ? sum + line.share : sum), 0);
    return { hz, db: Math.max(SILENCE_DB, decibels(share * rms ** 2)) };
  });
}

/** Level of the whole sound in dB of full scale. */
export function levelOf(rms: number): number {
  return Math.max(SILENCE_DB, decibels(rms ** 2));
}

function decibels(power: number): number {
  return power <= 0 ? SILENCE_DB : 10 * Math.log10(power);
}

function middleOf(samples: Float32Array, most: number): Float32Array {
  const from = Math.max(0, Math.floor((samples.length - most) / 2));
  return samples.subarray(from, from + most);
}
