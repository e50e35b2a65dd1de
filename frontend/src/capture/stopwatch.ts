/** A stopwatch made of points in time, not of ticks: it can be written down, and goes on after the app was killed. */

/** All times in ms since 1970. Plain data: kept as a draft and read back as it was. */
export type Stopwatch = {
  started_at: number | null;
  stopped_at: number | null;
  laps: { at: number; value: number }[];
};

export const NEW_STOPWATCH: Stopwatch = { started_at: null, stopped_at: null, laps: [] };

export function start(watch: Stopwatch, now: number): Stopwatch {
  return watch.started_at === null ? { ...watch, started_at: now } : watch;
}

export function stop(watch: Stopwatch, now: number): Stopwatch {
  return isRunning(watch) ? { ...watch, stopped_at: now } : watch;
}

/** Notes a reading at this moment, or at the moment it stopped. */
export function lap(watch: Stopwatch, value: number, now: number): Stopwatch {
  return watch.started_at === null
    ? watch
    : { ...watch, laps: [...watch.laps, { at: elapsedMs(watch, now), value }] };
}

export function isRunning({ started_at, stopped_at }: Stopwatch): boolean {
  return started_at !== null && stopped_at === null;
}

/** Never negative, even if the phone's clock was set back meanwhile. */
export function elapsedMs({ started_at, stopped_at }: Stopwatch, now: number): number {
  return started_at === null ? 0 : Math.max(0, (stopped_at ?? now) - started_at);
}

/** The seconds at which the next reading is due: every `every_s` from 0 to `seconds`; null when all are in. */
export function nextDue_s(watch: Stopwatch, every_s: number, seconds: number): number | null {
  const due = watch.laps.length * every_s;
  return due > seconds ? null : due;
}

/** Readings as `[seconds, value]`, to the tenth of a second. */
export function samplesOf(watch: Stopwatch): [number, number][] {
  return watch.laps.map(({ at, value }) => [Math.round(at / 100) / 10, value]);
}

/** A stopwatch from a kept draft; null when it is anything else. */
export function readStopwatch(kept: unknown): Stopwatch | null {
  if (typeof kept !== "object" || kept === null) return null;
  if (!("started_at" in kept && "stopped_at" in kept && "laps" in kept)) return null;
  const { started_at, stopped_at, laps } = kept;
  if (!isTime(started_at) || !isTime(stopped_at) || !Array.isArray(laps) || !laps.every(isLap)) return null;
  return { started_at, stopped_at, laps };
}

function isTime(value: unknown): value is number | null {
  return value === null || typeof value === "number";
}

function isLap(value: unknown): value is { at: number; value: number } {
  if (typeof value !== "object" || value === null || !("at" in value && "value" in value)) return false;
  return typeof value.at === "number" && typeof value.value === "number";
}
