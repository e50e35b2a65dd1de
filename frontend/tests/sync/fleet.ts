/** The phones of the fleet simulator: takes one JSON line after another, lets all that follows come to rest, answers one line. */
import "fake-indexeddb/auto";
import { readSync, writeSync } from "node:fs";
import type { Entry } from "../../src/journal/types";
import type { Event } from "../../src/sync/state";
import { bugNamed, type Bug } from "./bugs";
import { busy, clearDisks, watchDisks } from "./disk";
import { Phone, takeOverTimeLimits, type Blob } from "./phone";

type Order =
  | { do: "reset"; bug: string }
  | { do: "buy"; phone: string; seed: number; visible: boolean }
  | { do: "dies"; phone: string; luck: number }
  | { do: "start"; phone: string; visible: boolean }
  | { do: "keep"; phone: string; entries: Entry[]; blob: Blob | null; fuse: number | null }
  | { do: "tell"; phone: string; event: Event }
  | { do: "ring" | "news" | "news-lost" | "offer-refused" | "change-workshop" | "look"; phone: string }
  | {
      do: "answer";
      phone: string;
      call: number;
      status: number;
      headers: Record<string, string>;
      body: string | null;
    }
  | { do: "break"; phone: string; call: number; why: "network" | "time" }
  | { do: "disk"; phone: string; full?: boolean; closed_handles?: number; fuse?: number };

const clock = { now: 0 };
const phones = new Map<string, Phone>();
let bug: Bug = bugNamed("none");

async function carryOut(order: Order): Promise<unknown> {
  if (order.do === "reset") {
    phones.clear();
    clearDisks();
    bug = bugNamed(order.bug);
    return null;
  }
  if (order.do === "buy") phones.set(order.phone, new Phone(order.phone, order.seed, clock, bug));
  const phone = phones.get(order.phone);
  if (phone === undefined) throw new Error(`no phone ${order.phone}`);
  return withPhone(phone, order);
}

function withPhone(phone: Phone, order: Exclude<Order, { do: "reset" }>): unknown {
  switch (order.do) {
    case "buy":
    case "start":
      return phone.start(order.visible);
    case "dies":
      return phone.dies(order.luck);
    case "keep":
      phone.disk.fuse = order.fuse ?? phone.disk.fuse;
      return phone.keep(order.entries, order.blob);
    case "tell":
      return phone.tell(order.event);
    case "ring":
      return phone.ring();
    case "news":
      return phone.news?.arrived();
    case "news-lost":
      return phone.news?.lost();
    case "offer-refused":
      return phone.offerRefused();
    case "change-workshop":
      return phone.changeWorkshop();
    case "look":
      return phone.look();
    case "answer":
      return phone.answer(order.call, order);
    case "break":
      return phone.breakOff(order.call, order.why);
    case "disk":
      phone.disk.full = order.full ?? phone.disk.full;
      phone.disk.fuse = order.fuse ?? phone.disk.fuse;
      phone.disk.closed_handles = order.closed_handles ?? phone.disk.closed_handles;
      return null;
  }
}

/** Waits until no transaction runs and no promise is left that could start one. */
async function rest(): Promise<void> {
  for (let quiet = 0; quiet < 3; quiet += busy.count === 0 ? 1 : -quiet) {
    await new Promise((resolve) => setImmediate(resolve));
  }
}

function state(phone: Phone | undefined): Record<string, unknown> {
  if (phone === undefined) return {};
  return {
    requests: phone.requests.splice(0),
    kept: phone.kept.splice(0),
    failed: phone.failed.splice(0),
    dead: phone.disk.dead,
    timer: phone.timer === null ? null : [phone.timer.number, phone.timer.ms],
    listens: phone.news !== null,
    ...phone.shown(),
  };
}

async function answerTo(line: string): Promise<string> {
  const order = JSON.parse(line) as Order & { now: number };
  clock.now = order.now;
  const working = carryOut(order);
  await rest();
  const value = await working;
  await rest();
  const phone = order.do === "reset" ? undefined : phones.get(order.phone);
  return JSON.stringify({ ...state(phone), value: value ?? null });
}

/** The next line of standard input; null at its end. */
function reader(): () => string | null {
  const chunk = Buffer.alloc(1 << 20);
  let rest = "";
  return () => {
    while (!rest.includes("\n")) {
      const size = readSync(0, chunk);
      if (size === 0) return null;
      rest += chunk.toString("latin1", 0, size);
    }
    const end = rest.indexOf("\n");
    const line = rest.slice(0, end);
    rest = rest.slice(end + 1);
    return line;
  };
}

// What a dead phone still mutters does not count; anything else is a mistake of ours.
process.on("unhandledRejection", (error) => {
  if ([...phones.values()].some((phone) => phone.disk.dead)) return;
  throw error;
});
watchDisks();
takeOverTimeLimits();
// Requests stay readable for the simulator; compression has its own tests.
Reflect.deleteProperty(globalThis, "CompressionStream");
const next = reader();
for (let line = next(); line !== null; line = next()) writeSync(1, (await answerTo(line)) + "\n");
