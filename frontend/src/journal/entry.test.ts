// @vitest-environment node
/** A new entry carries who, where and when, from what it was handed; its id sorts by its millisecond. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { newEntry } from "./entry";
import { uuid7 } from "./uuid7";

const moment = fc.integer({ min: 0, max: 2 ** 48 - 1 });
const bytes = fc.uint8Array({ minLength: 10, maxLength: 10 });

test("a new entry takes its id and time from the clock and bytes it was handed", () => {
  const context = {
    card: "card-id",
    author: "ines",
    device: "phone-1",
    nowMs: () => 1_795_166_043_120,
    randomBytes: (count: number) => new Uint8Array(count),
  };
  expect(newEntry("complaint", "card/complaint/x", { words: "hum" }, ["a", "b"], context)).toEqual({
    id: "01a1f83b-fbf0-7000-8000-000000000000",
    card: "card-id",
    slot: "card/complaint/x",
    kind: "complaint",
    body: { words: "hum" },
    replaces: ["a", "b"],
    author: "ines",
    device: "phone-1",
    made_at: "2026-11-20T09:14:03.120Z",
    format: 1,
  });
});

test.each([
  [10_800_000.4, { clock_off_ms: 10_800_000 }],
  [-150_000, { clock_off_ms: -150_000 }],
  [null, {}],
])("a clock known to be off by %s ms is carried as %o", (off, carried) => {
  const context = {
    card: "card-id",
    author: "ines",
    device: "phone-1",
    nowMs: () => 1_795_166_043_120,
    randomBytes: (count: number) => new Uint8Array(count),
    clockOffMs: () => off,
  };
  const entry = newEntry("complaint", "card/complaint/x", { words: "hum" }, [], context);
  const found = "clock_off_ms" in entry ? { clock_off_ms: entry.clock_off_ms } : {};
  expect(found).toEqual(carried);
});

test("the example of RFC 9562 appendix A.6 comes out", () => {
  const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
  expect(uuid7(0x017f22e279b0, random)).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("an id is a UUID of version 7 with its millisecond in front", () => {
  fc.assert(
    fc.property(moment, bytes, (nowMs, random) => {
      const id = uuid7(nowMs, random);
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
      expect(Number.parseInt(id.replace("-", "").slice(0, 12), 16)).toBe(nowMs);
    }),
  );
});

test("ids sort by their millisecond", () => {
  fc.assert(
    fc.property(moment, moment, bytes, bytes, (one, other, some, more) => {
      fc.pre(one !== other);
      expect(uuid7(one, some) < uuid7(other, more)).toBe(one < other);
    }),
  );
});

test.each([-1, 2 ** 48, 0.5, Number.NaN])("the clock %s is a bug", (nowMs) => {
  expect(() => uuid7(nowMs, new Uint8Array(10))).toThrow(/nowMs/);
});

test.each([0, 9, 11])("%s random bytes are a bug", (count) => {
  expect(() => uuid7(0, new Uint8Array(count))).toThrow(/10 random bytes/);
});
