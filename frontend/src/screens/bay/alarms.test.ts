/** Countdowns outlive the screen and the app. */
import { describe, expect, it } from "vitest";
import { makeAlarms, type Alarm } from "./alarms";
import { until } from "./testing";

const POOL: Alarm = { path: "/bay/1/walk/1/all/leaks/pool/engine", ends_at: 60_000, words: "Leak pool" };

function makeShop() {
  const kept = new Map<string, unknown>();
  const clock = { now: 0, due: [] as { at: number; run: () => void }[] };
  const rings: Alarm[] = [];
  const open = () =>
    makeAlarms({
      store: {
        setting: (name) => Promise.resolve(kept.get(name)),
        keepSetting: (name, value) => {
          kept.set(name, value);
          return Promise.resolve();
        },
      },
      nowMs: () => clock.now,
      timer: (run, ms) => {
        const one = { at: clock.now + ms, run };
        clock.due.push(one);
        return () => (clock.due = clock.due.filter((other) => other !== one));
      },
      ring: (alarm) => rings.push(alarm),
    });
  const pass = (ms: number) => {
    clock.now += ms;
    for (const one of clock.due.filter(({ at }) => at <= clock.now)) {
      clock.due = clock.due.filter((other) => other !== one);
      one.run();
    }
  };
  return { kept, clock, rings, open, pass };
}

describe("a countdown", () => {
  it("rings once when its time is up, and stays to be seen until it is looked at", async () => {
    const shop = makeShop();
    const alarms = shop.open();
    await Promise.resolve();
    alarms.set(POOL);
    shop.pass(59_999);
    expect(shop.rings).toEqual([]);
    shop.pass(1);
    alarms.look();
    expect(shop.rings).toEqual([POOL]);
    expect(alarms.rung.value).toEqual([POOL]);
    alarms.drop(POOL.path);
    expect(alarms.rung.value).toEqual([]);
    expect(shop.kept.get("alarms")).toBeNull();
  });

  it("that ended while the app was closed rings when it is opened again", async () => {
    const shop = makeShop();
    const before = shop.open();
    await Promise.resolve();
    before.set(POOL);
    before.stop();
    shop.clock.now = 3_600_000;
    shop.open();
    await until(() => shop.rings.length === 1);
    expect(shop.rings[0]).toEqual(POOL);
  });

  it("that was dropped does not ring, and leaves no timer behind", async () => {
    const shop = makeShop();
    const alarms = shop.open();
    await Promise.resolve();
    alarms.set(POOL);
    alarms.drop(POOL.path);
    expect(shop.clock.due).toEqual([]);
    shop.pass(100_000);
    expect(shop.rings).toEqual([]);
  });
});
