/** Records a sound with a level to look at, and gives its bytes when stopped. */
import { refusalOf, refuse, type CaptureRefusal } from "./refusals";

export type Recorded = { bytes: ArrayBuffer; mime: string; seconds: number };
export type Recording = {
  ok: true;
  /** loudness now, 0 to 1 of full scale (root of the mean square) */
  level(): number;
  stop(): Promise<Recorded>;
  cancel(): void;
};

/** Recorders differ in what they can write; the first that this browser can is taken. */
const MIMES = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];
/** The browser's improvements are made for voices and take the hum out. */
const WISH: MediaStreamConstraints = {
  audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
};

/** Starts to record, or says why not; to be called from a tap. `now` in ms. */
export async function startRecording(
  devices: MediaDevices | undefined,
  now: () => number,
): Promise<Recording | CaptureRefusal> {
  if (devices === undefined || typeof MediaRecorder === "undefined") return refuse("no-microphone");
  try {
    return recordingOf(await devices.getUserMedia(WISH), now);
  } catch (error) {
    return refusalOf(error, "no-microphone");
  }
}

function recordingOf(stream: MediaStream, now: () => number): Recording {
  const mime = MIMES.find((one) => MediaRecorder.isTypeSupported(one));
  const recorder = new MediaRecorder(stream, mime === undefined ? {} : { mimeType: mime });
  const parts: Blob[] = [];
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const meter = levelMeter(stream);
  const started = now();
  recorder.start(1_000);
  const end = () => {
    meter.stop();
    for (const track of stream.getTracks()) track.stop();
  };
  return {
    ok: true,
    level: meter.level,
    stop: async () => {
      const seconds = (now() - started) / 1_000;
      await stopped(recorder);
      end();
      const whole = new Blob(parts, { type: recorder.mimeType });
      return { bytes: await whole.arrayBuffer(), mime: plainMime(recorder.mimeType), seconds };
    },
    cancel: () => {
      if (recorder.state !== "inactive") recorder.stop();
      end();
    },
  };
}

function stopped(recorder: MediaRecorder): Promise<void> {
  return new Promise((resolve) => {
    if (recorder.state === "inactive") {
      resolve();
      return;
    }
    recorder.onstop = () => resolve();
    recorder.stop();
  });
}

function levelMeter(stream: MediaStream): { level: () => number; stop: () => void } {
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  analyser.fftSize = 1024;
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  return {
    level: () => {
      analyser.getFloatTimeDomainData(samples);
      return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
    },
    stop: () => void context.close(),
  };
}

/** Without the codec, as the server wants it. */
function plainMime(mime: string): string {
  return mime.split(";")[0] ?? mime;
}
