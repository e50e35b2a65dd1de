/** Countdowns that are under way on any card: they ring when their time is up, wherever the person is by then. */
import { signal, type ReadonlySignal } from "@preact/signals";
import type { Store } from "../../store/types";

export type Alarm = {
  /** the screen it was started on */
  path: string;
  /** ms since 1970 */
  ends_at: number;
  words: string;
};
type Shelf = Pick<Store, "setting" | "keepSetting">;
const SETTING = "alarms";
/** Longer waits are cut: browsers count them in 31 bits. */
const LONGEST_WAIT_MS = 600_000;

export type Alarms = {
  /** those whose time is up and that nobody has looked at */
  rung: ReadonlySignal<readonly Alarm[]>;
  set: (alarm: Alarm) => void;
  drop: (path: string) => void;
  /** looks at the clock now */
  look: () => void;
  stop: () => void;
};

/** For screens that time nothing. */
export const NO_ALARMS: Alarms = {
  rung: signal([]),
  set: () => undefined,
  drop: () => undefined,
  look: () => undefined,
  stop: () => undefined,
};

type Tools = {
  store: Shelf;
  nowMs: () => number;
  timer: (run: () => void, ms: number) => () => void;
  ring: (alarm: Alarm) => void;
};

/** Takes up the countdowns that were running when the app was last closed; those that ended meanwhile ring at once. */
export function makeAlarms({ store, nowMs, timer, ring }: Tools): Alarms {
  let all: Alarm[] = [];
  let cancel: () => void = () => undefined;
  const rung = signal<readonly Alarm[]>([]);
  const change = (next: Alarm[]) => {
    all = next;
    void store.keepSetting(SETTING, all.length > 0 ? all : null).catch(() => undefined);
    look();
  };
  const look = () => {
    cancel();
    const due = all.filter((one) => one.ends_at <= nowMs());
    const fresh = due.filter((one) => !rung.peek().includes(one));
    rung.value = due;
    for (const one of fresh) ring(one);
    const waits = all.filter((one) => !due.includes(one)).map((one) => one.ends_at - nowMs());
    if (waits.length > 0) cancel = timer(look, Math.min(LONGEST_WAIT_MS, ...waits));
  };
  void store.setting(SETTING).then((kept) => {
    all = [...asAlarms(kept).filter((one) => all.every((other) => other.path !== one.path)), ...all];
    look();
  });
  return {
    rung,
    set: (alarm) => change([...all.filter((one) => one.path !== alarm.path), alarm]),
    drop: (path) => {
      if (all.some((one) => one.path === path)) change(all.filter((one) => one.path !== path));
    },
    look,
    stop: () => cancel(),
  };
}

function asAlarms(kept: unknown): Alarm[] {
  return Array.isArray(kept) ? kept.filter(isAlarm) : [];
}

function isAlarm(kept: unknown): kept is Alarm {
  if (typeof kept !== "object" || kept === null) return false;
  if (!("path" in kept && "ends_at" in kept && "words" in kept)) return false;
  return typeof kept.path === "string" && typeof kept.ends_at === "number" && typeof kept.words === "string";
}
