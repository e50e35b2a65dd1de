/** A plain zip archive, put together piece by piece. Nothing is compressed: any computer opens it, and sizes are known. */

const VERSION = 20;
const NAMES_ARE_UTF8 = 0x0800;
const LOCAL_BYTES = 30;
const LISTED_BYTES = 46;
const END_BYTES = 22;
const DAY_ZERO = 1980;

/** Gathers members; each becomes a Blob at once, which the browser may keep outside of this page's memory. */
export class Zip {
  readonly #parts: Blob[] = [];
  readonly #listing: Uint8Array<ArrayBuffer>[] = [];
  #offset = 0;

  /** at: the time every member is said to be from, ms since 1970. */
  constructor(private readonly at: number) {}

  add(name: string, bytes: Uint8Array<ArrayBuffer>): void {
    const path = new TextEncoder().encode(name);
    const head = this.#head(bytes);
    const local = field(LOCAL_BYTES, [[4, 0x04034b50], [2, VERSION], ...head, [2, path.length], [2, 0]]);
    const listed = field(LISTED_BYTES, [
      [4, 0x02014b50],
      [2, VERSION],
      [2, VERSION],
      ...head,
      [2, path.length],
      [12, 0],
      [4, this.#offset],
    ]);
    this.#listing.push(listed, path);
    this.#parts.push(new Blob([local, path, bytes]));
    this.#offset += LOCAL_BYTES + path.length + bytes.length;
  }

  finish(): Blob {
    const members = this.#listing.length / 2;
    const bytes = this.#listing.reduce((sum, part) => sum + part.length, 0);
    const end = field(END_BYTES, [
      [4, 0x06054b50],
      [4, 0],
      [2, members],
      [2, members],
      [4, bytes],
      [4, this.#offset],
      [2, 0],
    ]);
    return new Blob([...this.#parts, ...this.#listing, end], { type: "application/zip" });
  }

  /** What the member's own head and the listing have in common. */
  #head(bytes: Uint8Array): Field[] {
    const [day, time] = dosTime(this.at);
    const size = bytes.length;
    return [
      [2, NAMES_ARE_UTF8],
      [2, 0],
      [2, time],
      [2, day],
      [4, crc32(bytes)],
      [4, size],
      [4, size],
    ];
  }
}

/** CRC-32 of some bytes. Source: ISO 3309, as PKWARE's APPNOTE 4.4.7 takes it. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (TABLE[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  return crc;
});

/** Bytes taken, and the number in them, least significant byte first. */
type Field = readonly [bytes: number, value: number];

function field(length: number, fields: Field[]): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer(length));
  let at = 0;
  for (const [bytes, value] of fields) {
    if (bytes === 2) view.setUint16(at, value, true);
    else if (bytes === 4) view.setUint32(at, value, true);
    at += bytes;
  }
  return new Uint8Array(view.buffer);
}

function dosTime(at: number): [day: number, time: number] {
  const when = new Date(at);
  const years = Math.max(0, when.getUTCFullYear() - DAY_ZERO);
  const day = (years << 9) | ((when.getUTCMonth() + 1) << 5) | when.getUTCDate();
  const time = (when.getUTCHours() << 11) | (when.getUTCMinutes() << 5) | (when.getUTCSeconds() >> 1);
  return [day, time];
}
