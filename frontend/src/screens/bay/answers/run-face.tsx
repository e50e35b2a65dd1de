/** The clock of a run: its face, its beeps, and the screen kept lit while it runs. */
import { useEffect, useState } from "preact/hooks";
import { keepAwake, wakeLamp } from "../../../capture/wake-lock";
import { beep } from "../../../ui/beep";
import { buzz } from "../../../ui/buzz";
import { Button } from "../../../ui/button";
import { clockText, Face } from "../../../ui/clock";
import { useBay } from "../context";
import { say } from "../say";
import { elapsed, nextDue, type Run, type RunSpec } from "./run-clock";

/** Ms of the run, ten times a second while it runs; beeps when a reading is due and at the end. */
export function useTicking(run: Run, spec: RunSpec): number {
  const { nowMs } = useBay();
  const [, redraw] = useState(0);
  const { started_at, stopped_at } = run.watch;
  useEffect(() => {
    let last = elapsed(run, nowMs());
    if (started_at === null || stopped_at !== null) return undefined;
    const timer = setInterval(() => {
      const now = elapsed(run, nowMs());
      if (beeps(spec, now) > beeps(spec, last)) {
        beep();
        buzz(200);
      }
      last = now;
      redraw(now);
    }, 100);
    return () => clearInterval(timer);
  }, [started_at, stopped_at, spec]);
  return elapsed(run, nowMs());
}

function beeps(spec: RunSpec, ms: number): number {
  // The end of a countdown rings by its alarm, wherever the person is.
  const end = ms >= spec.seconds * 1000 && spec.shape !== "countdown" ? 1 : 0;
  const within = Math.min(ms / 1000, spec.seconds);
  return spec.every_s === null ? end : Math.floor(within / spec.every_s);
}

/** Keeps the screen lit while `isRunning`. */
export function useLitScreen(isRunning: boolean): void {
  useEffect(() => (isRunning ? keepAwake(wakeLamp(navigator), document) : undefined), [isRunning]);
}

/** The way to be told outside of the app, as long as the person has neither allowed nor refused it. */
export function AskToNotify() {
  const [asked, setAsked] = useState(false);
  if (asked || typeof Notification === "undefined" || Notification.permission !== "default") return null;
  const ask = () => {
    void Notification.requestPermission().then(() => setAsked(true));
  };
  return (
    <Button wide onTap={ask}>
      {say("notify-me")}
    </Button>
  );
}

export function RunFace({ spec, run, ms }: { spec: RunSpec; run: Run; ms: number }) {
  const due = nextDue(spec, run);
  const isDue = run.watch.started_at !== null && due !== null && ms >= due * 1000;
  const down = spec.shape === "countdown";
  const text = down ? clockText(spec.seconds * 1000 - ms + (ms > 0 ? 999 : 0), false) : clockText(ms, true);
  return (
    <Face
      text={text}
      name={say(down ? "countdown" : "stopwatch")}
      due={isDue}
      progress={Math.min(1, ms / (spec.seconds * 1000))}
    >
      <p class="run-says">{runSays(spec, due, isDue)}</p>
    </Face>
  );
}

function runSays(spec: RunSpec, due: number | null, isDue: boolean): string {
  if (spec.shape === "count") return say("run-count-till", { s: spec.seconds });
  if (due !== null) return say(isDue ? "run-read-now" : "run-next", { s: due });
  return say(spec.every_s === null && spec.shape === "gauge" ? "run-free" : "run-all-in");
}
