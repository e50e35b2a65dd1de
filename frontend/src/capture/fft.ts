/** Fast Fourier transform, radix 2, and the averaged power spectrum made with it. */

/** Transforms in place; the length of both must be the same power of two. Formula: Cooley and Tukey 1965. */
export function fft(re: Float64Array, im: Float64Array): void {
  reorder(re, im);
  for (let half = 1; half < re.length; half *= 2) {
    for (let offset = 0; offset < half; offset += 1) {
      const angle = (-Math.PI * offset) / half;
      butterflies(re, im, half, offset, Math.cos(angle), Math.sin(angle));
    }
  }
}

/** Mean power per bin (0 to size / 2 - 1) over half-overlapping Hann-windowed pieces; a short sound is padded. */
export function powerSpectrum(samples: Float32Array, size: number): Float64Array {
  const power = new Float64Array(size / 2);
  const last = Math.max(0, samples.length - size);
  for (let from = 0; from <= last; from += size / 2) {
    const re = windowed(samples, from, size);
    const im = new Float64Array(size);
    fft(re, im);
    power.forEach((sum, bin) => (power[bin] = sum + (re[bin] ?? 0) ** 2 + (im[bin] ?? 0) ** 2));
  }
  return power;
}

function windowed(samples: Float32Array, from: number, size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, place) => {
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * place) / size);
    return hann * (samples[from + place] ?? 0);
  });
}

function reorder(re: Float64Array, im: Float64Array): void {
  for (let place = 1, mirrored = 0; place < re.length; place += 1) {
    let bit = re.length >> 1;
    for (; (mirrored & bit) !== 0; bit >>= 1) mirrored ^= bit;
    mirrored ^= bit;
    if (place < mirrored) {
      swap(re, place, mirrored);
      swap(im, place, mirrored);
    }
  }
}

function butterflies(
  re: Float64Array,
  im: Float64Array,
  half: number,
  offset: number,
  cos: number,
  sin: number,
): void {
  for (let a = offset; a < re.length; a += 2 * half) {
    const b = a + half;
    const [reA, imA, reB, imB] = [re[a] ?? 0, im[a] ?? 0, re[b] ?? 0, im[b] ?? 0];
    const turnedRe = reB * cos - imB * sin;
    const turnedIm = reB * sin + imB * cos;
    re[a] = reA + turnedRe;
    im[a] = imA + turnedIm;
    re[b] = reA - turnedRe;
    im[b] = imA - turnedIm;
  }
}

function swap(values: Float64Array, a: number, b: number): void {
  const [atA, atB] = [values[a] ?? 0, values[b] ?? 0];
  values[a] = atB;
  values[b] = atA;
}
