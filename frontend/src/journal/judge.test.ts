// @vitest-environment node
/** The judge takes what is well formed and says plainly why it refuses the rest, the same on phone and server. */
import { expect, test } from "vitest";
import { judge } from "./judge";
import { REFUSAL_CODES } from "./refusal";
import { isObject } from "./rules";
import { KIND_STANDS_IN } from "./slots";
import { vectors } from "./testing";

type Json = Record<string, unknown>;
type Case = { says: string; base: string; code: string | null; change?: Json; remove?: string[] };
type Vectors = { bases: Record<string, Json>; cases: Case[]; raw: { value: unknown; code: string }[] };
const { bases, cases, raw } = vectors<Vectors>("journal-judge");

function expanded(value: unknown): unknown {
  if (!isObject(value)) return value;
  if (Array.isArray(value.repeat)) return String(value.repeat[0]).repeat(Number(value.repeat[1]));
  if (Array.isArray(value.list)) return new Array<unknown>(Number(value.list[1])).fill(value.list[0]);
  return typeof value.big === "number" ? Number(`1e${value.big}`) : value;
}

function holder(entry: Json, path: string): [Json, string] {
  const names = path.split(".");
  const last = names.pop() ?? "";
  let held = entry;
  for (const name of names) {
    const inner = held[name];
    if (!isObject(inner)) throw new Error(`${path} is not in the entry`);
    held = inner;
  }
  return [held, last];
}

function entryOf({ base, change = {}, remove = [] }: Case): Json {
  const entry: Json = structuredClone(bases[base] ?? {});
  for (const path of remove) {
    const [held, name] = holder(entry, path);
    Reflect.deleteProperty(held, name);
  }
  for (const [path, value] of Object.entries(change)) {
    const [held, name] = holder(entry, path);
    held[name] = expanded(value);
  }
  return entry;
}

test.each(cases)("$says: taken or refused for its reason", (one) => {
  const refusal = judge(entryOf(one));
  expect(refusal?.code ?? null).toBe(one.code);
  if (refusal) {
    expect(refusal.title.length).toBeLessThan(200);
    expect(refusal.do).toMatch(/\.$/);
  }
});

test.each(raw)("$value is no entry at all", ({ value, code }) => {
  expect(judge(value)?.code).toBe(code);
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
  "the value %s is refused",
  (value) => {
    expect(
      judge(entryOf({ says: "", base: "number", code: null, change: { "body.value": value } }))?.code,
    ).toBe("not-a-number");
  },
);

test("the vectors hold every kind and every reason", () => {
  expect(new Set(Object.values(bases).map(({ kind }) => kind))).toEqual(new Set(KIND_STANDS_IN.keys()));
  const seen = [...cases, ...raw].flatMap(({ code }) => (code === null ? [] : [code]));
  expect(new Set(seen)).toEqual(new Set(REFUSAL_CODES));
});
