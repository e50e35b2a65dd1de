/** Reads the samples of a WAV file with plain PCM (8, 16, 24, 32 bit) or 32-bit floats. */

export type Pcm = { samples: Float32Array; rate_hz: number };
type Format = { coding: number; channels: number; rate_hz: number; bits: number };

const PCM = 1;
const FLOAT = 3;

/** All channels mixed into one, full scale 1; null when it is not such a file. */
export function readWav(bytes: ArrayBuffer): Pcm | null {
  const view = new DataView(bytes);
  if (bytes.byteLength < 12 || tag(view, 0) !== "RIFF" || tag(view, 8) !== "WAVE") return null;
  let format: Format | null = null;
  for (let at = 12; at + 8 <= bytes.byteLength; at += 8 + even(view.getUint32(at + 4, true))) {
    const name = tag(view, at);
    const size = Math.min(view.getUint32(at + 4, true), bytes.byteLength - at - 8);
    if (name === "fmt " && size >= 16) format = readFormat(view, at + 8);
    if (name === "data" && format !== null) return mix(view, at + 8, size, format);
  }
  return null;
}

function readFormat(view: DataView, at: number): Format {
  return {
    coding: view.getUint16(at, true),
    channels: view.getUint16(at + 2, true),
    rate_hz: view.getUint32(at + 4, true),
    bits: view.getUint16(at + 14, true),
  };
}

function mix(
  view: DataView,
  at: number,
  size: number,
  { coding, channels, rate_hz, bits }: Format,
): Pcm | null {
  const read = reader(view, coding, bits);
  if (read === null || channels === 0) return null;
  const step = bits / 8;
  const samples = Float32Array.from({ length: Math.floor(size / (step * channels)) }, (_, frame) => {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1)
      sum += read(at + (frame * channels + channel) * step);
    return sum / channels;
  });
  return { samples, rate_hz };
}

function reader(view: DataView, coding: number, bits: number): ((at: number) => number) | null {
  if (coding === FLOAT && bits === 32) return (at) => view.getFloat32(at, true);
  if (coding !== PCM) return null;
  switch (bits) {
    case 8:
      return (at) => (view.getUint8(at) - 128) / 128;
    case 16:
      return (at) => view.getInt16(at, true) / 2 ** 15;
    case 24:
      return (at) => (view.getInt8(at + 2) * 65_536 + view.getUint16(at, true)) / 2 ** 23;
    case 32:
      return (at) => view.getInt32(at, true) / 2 ** 31;
    default:
      return null;
  }
}

function tag(view: DataView, at: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map((place) => view.getUint8(at + place)));
}

function even(size: number): number {
  return size + (size % 2);
}
