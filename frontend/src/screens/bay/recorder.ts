/** A sound being recorded: how long, how loud, and its end after the time the check asks for. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { CaptureRefusal } from "../../capture/refusals";
import { startRecording, type Recorded, type Recording } from "../../capture/sound";
import { useBay } from "./context";

const LOOK_MS = 100;

/** seconds: when it stops by itself. `refusal` says why there is no microphone. */
export function useRecorder(seconds: number, keep: (sound: Recorded) => Promise<void>) {
  const { nowMs } = useBay();
  const [seen, setSeen] = useState({ ms: 0, level: 0 });
  const [recording, setRecording] = useState<Recording | null>(null);
  const [refusal, setRefusal] = useState<CaptureRefusal | null>(null);
  const keeping = useRef(keep);
  keeping.current = keep;
  useEffect(() => {
    if (recording === null) return undefined;
    const startedMs = nowMs();
    const timer = setInterval(() => {
      const ms = nowMs() - startedMs;
      setSeen({ ms, level: recording.level() });
      if (ms >= seconds * 1000) stop(recording);
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, [recording]);
  const stop = (now: Recording) => {
    setRecording((held) => {
      if (held === now) void now.stop().then((sound) => keeping.current(sound));
      return null;
    });
  };
  const start = async () => {
    const begun = await startRecording((navigator as Partial<Navigator>).mediaDevices, nowMs);
    setRefusal(begun.ok ? null : begun);
    setRecording(begun.ok ? begun : null);
  };
  return {
    ...seen,
    running: recording !== null,
    refusal,
    start: () => void start(),
    stop: () => recording && stop(recording),
  };
}
