// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sniff } from "./sniff";

const bytes = (...parts: (string | number[])[]) =>
  new Uint8Array(
    parts.flatMap((part) => (typeof part === "string" ? [...part].map((c) => c.charCodeAt(0)) : part)),
  );

/** JFIF header, an EXIF segment with a whole thumbnail in it, the frame, the scan. */
const START = [0xff, 0xd8];
const EXIF = [0xff, 0xe1, 0, 8, 0xff, 0xd8, 0xff, 0xd9, 0, 0];
const FRAME = [0xff, 0xc0, 0, 11, 8, 0x0b, 0xb8, 0x0f, 0xa0, 1, 1, 0x11, 0];
const SCAN = [0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 1, 2, 3, 0xff, 0, 4];
const END = [0xff, 0xd9];

describe("a JPEG", () => {
  test("is known with its size and its end", () => {
    const size = { width: 4_000, height: 3_000 };
    expect(sniff(bytes(START, EXIF, FRAME, SCAN, END))).toEqual({ kind: "jpeg", whole: true, size });
  });

  test("that was cut is not whole, even when its thumbnail is", () => {
    expect(sniff(bytes(START, EXIF, FRAME, SCAN)).whole).toBe(false);
    expect(sniff(bytes(START, EXIF)).whole).toBe(false);
  });

  test("with a film behind it is whole", () => {
    expect(sniff(bytes(START, EXIF, FRAME, SCAN, END, "ftypmp42 and so on")).whole).toBe(true);
  });
});

test("a PNG is whole when its last chunk is there", () => {
  const start = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13];
  const head = bytes(start, "IHDR", [0, 0, 1, 0, 0, 0, 0, 200], "pixels");
  expect(sniff(head)).toEqual({ kind: "png", whole: false, size: { width: 256, height: 200 } });
  expect(sniff(bytes([...head], "IEND", [0xae, 0x42, 0x60, 0x82])).whole).toBe(true);
});

test("a WebP is whole when it is as long as it says", () => {
  const picture = bytes("RIFF", [8, 0, 0, 0], "WEBP", "VP8 ");
  expect(sniff(picture)).toEqual({ kind: "webp", whole: true, size: null });
  expect(sniff(picture.subarray(0, 14)).whole).toBe(false);
});

test("a HEIC is known whatever its name says, and a PDF is no picture", () => {
  expect(sniff(bytes([0, 0, 0, 24], "ftypheic")).kind).toBe("heic");
  expect(sniff(bytes("%PDF-1.7")).kind).toBe("unknown");
});

test("no bytes at all make it fail or go on for ever", () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 200 }),
      (noise) => void sniff(new Uint8Array([...START, ...noise])),
    ),
  );
});
