/** What a sound file's bytes are, whatever its name says: one of the kinds the workshop keeps. */
import { decodeSound } from "./decode";

export type SoundMime = "audio/wav" | "audio/ogg" | "audio/webm" | "audio/mp4";
export type SoundFile = { bytes: ArrayBuffer; mime: SoundMime; seconds: number };

/** A sound ready to be kept; null when it is of another kind or cannot be read here. */
export async function readSoundFile(file: Blob): Promise<SoundFile | null> {
  const bytes = await file.arrayBuffer();
  const mime = soundMime(new Uint8Array(bytes));
  const sound = mime && (await decodeSound(bytes));
  if (!mime || !sound) return null;
  return { bytes, mime, seconds: sound.samples.length / sound.rate_hz };
}

/** By the first bytes only. */
export function soundMime(bytes: Uint8Array): SoundMime | null {
  const text = (from: number) => String.fromCharCode(...bytes.subarray(from, from + 4));
  if (text(0) === "RIFF" && text(8) === "WAVE") return "audio/wav";
  if (text(0) === "OggS") return "audio/ogg";
  if (text(4) === "ftyp") return "audio/mp4";
  return text(0) === "\x1a\x45\xdf\xa3" ? "audio/webm" : null;
}
