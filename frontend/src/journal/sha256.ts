/** SHA-256 that answers at once, for short texts; the browser's own only answers later. */

const ROUND_CONSTANTS = primes(64).map((prime) => fraction(Math.cbrt(prime)));
const START = primes(8).map((prime) => fraction(Math.sqrt(prime)));

/** SHA-256 in hex of a text's UTF-8 bytes. Source: FIPS 180-4, sections 5.1.1, 5.3.3 and 6.2. */
export function sha256(text: string): string {
  const words = padded(new TextEncoder().encode(text));
  const hash = Int32Array.from(START);
  const schedule = new Int32Array(64);
  for (let block = 0; block < words.length; block += 16)
    compress(hash, schedule, words.subarray(block, block + 16));
  return Array.from(hash, (word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}

function padded(bytes: Uint8Array): Int32Array {
  const size = Math.ceil((bytes.length + 9) / 64) * 64;
  const view = new DataView(new ArrayBuffer(size));
  bytes.forEach((byte, place) => {
    view.setUint8(place, byte);
  });
  view.setUint8(bytes.length, 0x80);
  view.setUint32(size - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(size - 4, bytes.length * 8);
  return Int32Array.from({ length: size / 4 }, (_, place) => view.getInt32(place * 4));
}

function compress(hash: Int32Array, schedule: Int32Array, block: Int32Array): void {
  fill(schedule, block);
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let place = 0; place < 64; place++) {
    const sum1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const choice = (e & f) ^ (~e & g);
    const first = (h + sum1 + choice + at(ROUND_CONSTANTS, place) + at(schedule, place)) | 0;
    const sum0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + sum0 + majority) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, place) => {
    hash[place] = at(hash, place) + word;
  });
}

function fill(schedule: Int32Array, block: Int32Array): void {
  schedule.set(block);
  for (let place = 16; place < 64; place++) {
    const near = at(schedule, place - 2);
    const far = at(schedule, place - 15);
    const sigma1 = turn(near, 17) ^ turn(near, 19) ^ (near >>> 10);
    const sigma0 = turn(far, 7) ^ turn(far, 18) ^ (far >>> 3);
    schedule[place] = sigma1 + at(schedule, place - 7) + sigma0 + at(schedule, place - 16);
  }
}

function at(words: ArrayLike<number>, place: number): number {
  return words[place] ?? 0;
}

function turn(word: number, by: number): number {
  return (word >>> by) | (word << (32 - by));
}

function fraction(root: number): number {
  return ((root - Math.floor(root)) * 2 ** 32) | 0;
}

function primes(count: number): number[] {
  const found: number[] = [];
  for (let number = 2; found.length < count; number++)
    if (found.every((prime) => number % prime !== 0)) found.push(number);
  return found;
}
