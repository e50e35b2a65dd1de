/** A run as data: when it started, what was read. Pure, so that a killed app picks it up where it was. */
import {
  elapsedMs,
  lap,
  NEW_STOPWATCH,
  readStopwatch,
  samplesOf,
  start,
  type Stopwatch,
} from "../../../capture/stopwatch";
import type { AnswerSpec } from "../../../measure/book";

export type RunSpec = Extract<AnswerSpec, { kind: "run" }>;
/** `unit` is that of the readings, once one was typed */
export type Run = { watch: Stopwatch; typed: string; unit?: string };

export const NO_RUN: Run = { watch: NEW_STOPWATCH, typed: "" };

export function startRun(run: Run, nowMs: number): Run {
  return { ...run, watch: start(run.watch, nowMs) };
}

export function elapsed(run: Run, nowMs: number): number {
  return elapsedMs(run.watch, nowMs);
}

/** When a run that was started is over, in ms since 1970. */
export function ends(run: Run, spec: RunSpec): number {
  return (run.watch.started_at ?? 0) + spec.seconds * 1000;
}

/** Seconds at which a reading is due: every `every_s`, or at start and end of a countdown; [] when free. */
export function dueTimes(spec: RunSpec): number[] {
  const { every_s, seconds, shape } = spec;
  if (shape === "count") return [];
  if (every_s === null) return shape === "countdown" ? [0, seconds] : [];
  return Array.from({ length: Math.floor(seconds / every_s) + 1 }, (_, at) => at * every_s);
}

/** The time of the reading that is wanted next, in seconds; null when all due readings are in. */
export function nextDue(spec: RunSpec, run: Run): number | null {
  return dueTimes(spec)[run.watch.laps.length] ?? null;
}

/** A reading added: at the due time, or at the moment it was read when the run has no schedule. */
export function addReading(spec: RunSpec, run: Run, value: number, nowMs: number): Run {
  const due = nextDue(spec, run);
  const at = due === null ? elapsed(run, nowMs) : due * 1000;
  return { ...run, watch: { ...run.watch, laps: [...run.watch.laps, { at, value }] }, typed: "" };
}

/** One more counted, at the moment of the tap. */
export function countOne(run: Run, nowMs: number): Run {
  return { ...run, watch: lap(run.watch, (run.watch.laps.at(-1)?.value ?? 0) + 1, nowMs) };
}

/** What is kept of a run. A count gets its zero and its end, so that the rate can be worked out. */
export function samples(spec: RunSpec, run: Run, nowMs: number): [number, number][] {
  const read = samplesOf(run.watch);
  if (spec.shape !== "count") return read;
  const end = Math.min(Math.round(elapsed(run, nowMs) / 100) / 10, spec.seconds);
  const inside = read.filter(([at]) => at > 0 && at < end);
  return [[0, 0], ...inside, [end, read.at(-1)?.[1] ?? 0]];
}

/** A run that was kept as a draft; null when it is anything else. */
export function asRun(kept: unknown): Run | null {
  if (typeof kept !== "object" || kept === null || !("watch" in kept) || !("typed" in kept)) return null;
  const watch = readStopwatch(kept.watch);
  const unit = "unit" in kept && typeof kept.unit === "string" ? { unit: kept.unit } : {};
  return watch && typeof kept.typed === "string" ? { watch, typed: kept.typed, ...unit } : null;
}
