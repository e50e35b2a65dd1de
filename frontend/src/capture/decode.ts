/** A recorded sound as samples: WAV by our own reader, everything else by the browser's. */
import { readWav, type Pcm } from "./wav";

/** All channels mixed into one; null when nobody here can read it. */
export async function decodeSound(bytes: ArrayBuffer): Promise<Pcm | null> {
  const wav = readWav(bytes);
  if (wav !== null) return wav;
  if (typeof AudioContext === "undefined") return null;
  const context = new AudioContext();
  try {
    // The decoder takes the bytes away, so it gets a copy.
    const sound = await context.decodeAudioData(bytes.slice(0));
    return { samples: mixed(sound), rate_hz: sound.sampleRate };
  } catch {
    return null;
  } finally {
    void context.close();
  }
}

function mixed(sound: AudioBuffer): Float32Array {
  const channels = Array.from({ length: sound.numberOfChannels }, (_, at) => sound.getChannelData(at));
  return Float32Array.from(
    { length: sound.length },
    (_, at) => channels.reduce((sum, channel) => sum + (channel[at] ?? 0), 0) / channels.length,
  );
}
