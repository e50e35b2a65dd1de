/** What a picture's bytes are, whatever its name says, and whether all of it is there. */

export type PictureKind = "jpeg" | "png" | "webp" | "heic" | "unknown";
export type Size = { width: number; height: number };
/** `size` is as stored, before any turning; null where it is not told in a plain place. */
export type Sniffed = { kind: PictureKind; whole: boolean; size: Size | null };

const HEIC_BRANDS = new Set(["heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1"]);
const PNG_START = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;

/** Looks at the bytes only. */
export function sniff(bytes: Uint8Array): Sniffed {
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return sniffJpeg(bytes);
  if (PNG_START.every((byte, place) => bytes[place] === byte)) return sniffPng(bytes);
  if (ascii(bytes, 0, 4) === "RIFF" && ascii(bytes, 8, 4) === "WEBP") return sniffWebp(bytes);
  if (ascii(bytes, 4, 4) === "ftyp" && HEIC_BRANDS.has(ascii(bytes, 8, 4))) {
    return { kind: "heic", whole: true, size: null };
  }
  return { kind: "unknown", whole: false, size: null };
}

/** Walks the segments to the scan; phones append films after the picture, so the end is looked for behind the scan. */
function sniffJpeg(bytes: Uint8Array): Sniffed {
  let size: Size | null = null;
  let at = 2;
  while (at + 9 < bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] ?? 0;
    if (isFrame(marker)) size = { height: uint16(bytes, at + 5), width: uint16(bytes, at + 7) };
    if (marker === START_OF_SCAN) return { kind: "jpeg", whole: hasMarker(bytes, at, END_OF_IMAGE), size };
    at += 2 + uint16(bytes, at + 2);
  }
  return { kind: "jpeg", whole: false, size };
}

/** Start-of-frame markers are C0 to CF but for tables (C4), reserved (C8) and arithmetic conditions (CC). */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function hasMarker(bytes: Uint8Array, from: number, marker: number): boolean {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    if (bytes[at + 1] === marker) return true;
  }
  return false;
}

function sniffPng(bytes: Uint8Array): Sniffed {
  const whole = ascii(bytes, bytes.length - 8, 4) === "IEND";
  return { kind: "png", whole, size: { width: uint32(bytes, 16), height: uint32(bytes, 20) } };
}

function sniffWebp(bytes: Uint8Array): Sniffed {
  const told =
    (bytes[4] ?? 0) + (bytes[5] ?? 0) * 2 ** 8 + (bytes[6] ?? 0) * 2 ** 16 + (bytes[7] ?? 0) * 2 ** 24;
  return { kind: "webp", whole: bytes.length >= told + 8, size: null };
}

function ascii(bytes: Uint8Array, from: number, count: number): string {
  return from < 0 ? "" : String.fromCharCode(...bytes.subarray(from, from + count));
}

function uint16(bytes: Uint8Array, at: number): number {
  return (bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0);
}

function uint32(bytes: Uint8Array, at: number): number {
  return uint16(bytes, at) * 65_536 + uint16(bytes, at + 2);
}
