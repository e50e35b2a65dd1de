/** Sound files from elsewhere. */
import { expect, it } from "vitest";
import { readSoundFile, soundMime } from "./sound-file";

/** One second of silence at 8 kHz, 8 bit. */
function wav(): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(44 + 8_000).fill(128);
  const view = new DataView(bytes.buffer);
  const put = (at: number, text: string) => bytes.set(new TextEncoder().encode(text), at);
  put(0, "RIFF");
  view.setUint32(4, bytes.length - 8, true);
  put(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, 8_000, true);
  view.setUint32(28, 8_000, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  put(36, "data");
  view.setUint32(40, 8_000, true);
  return bytes;
}
const start = (text: string) => Uint8Array.from([...text].map((sign) => sign.charCodeAt(0)));

it("is known by its bytes, with its length", async () => {
  expect(await readSoundFile(new Blob([wav()]))).toMatchObject({ mime: "audio/wav", seconds: 1 });
});

it("is refused when it is something else, or has no sound in it", async () => {
  expect(await readSoundFile(new Blob(["ID3 of another kind"]))).toBeNull();
  expect(await readSoundFile(new Blob([start("RIFF\0\0\0\0WAVE")]))).toBeNull();
});

it.each([
  ["OggS\0\x02", "audio/ogg"],
  ["\0\0\0\x20ftypM4A ", "audio/mp4"],
  ["\x1a\x45\xdf\xa3\x9f", "audio/webm"],
  ["", null],
])("starting with %j is %s", (text, mime) => {
  expect(soundMime(start(text))).toBe(mime);
});
