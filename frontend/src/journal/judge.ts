/** Whether one entry, looked at alone, may be kept. Phone and server ask the same questions in the same order. */
import { bodyRule } from "./bodies";
import { FORMAT } from "./entry";
import { refusal, type Refusal } from "./refusal";
import { form, isObject, listOf, shape, text, whole, type Rule } from "./rules";
import { KIND_STANDS_IN, mayStand, parseSlot } from "./slots";

export type { Refusal, RefusalCode } from "./refusal";

const MOST_REPLACED = 500;
/** A phone's calendar is off by centuries at most: 1,000 years. */
const CLOCK_OFF_MS_MAX = 31_557_600_000_000;
const UUID7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const PERSON = form(/^[A-Za-z0-9._:@-]{1,80}$/, "the id of a person or device");
const TIME = /^[1-9][0-9]{3}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,6})?Z$/;
const writtenFormat = whole(FORMAT, 1_000_000);

/**
 * Why an entry may not be kept, or null when it may.
 *
 * entry: an Entry, or a JSON value as it arrived, about which nothing is known yet. Needs no other entry and no book.
 */
export function judge(entry: unknown): Refusal | null {
  if (!isObject(entry))
    return refusal("not-an-entry", "This is not an entry", "Send one JSON object for each entry.");
  return format(entry) ?? envelope(entry, "entry") ?? place(entry) ?? replaces(entry);
}

function format(entry: Record<string, unknown>): Refusal | null {
  if (writtenFormat(entry.format, "format"))
    return refusal("not-an-entry", "The entry does not say its format", `Send format ${FORMAT}.`);
  if (entry.format === FORMAT) return null;
  return refusal(
    "newer-format",
    `The entry was written by a newer app (format ${String(entry.format)})`,
    "Update this side; the entry is kept where it was made and can be sent again.",
  );
}

const time: Rule = (value, path) => {
  const seconds = typeof value === "string" && TIME.test(value) ? value.slice(0, 19) : "";
  const ms = Date.parse(`${seconds}Z`);
  if (!Number.isNaN(ms) && new Date(ms).toISOString().startsWith(seconds)) return null;
  return refusal("wrong-form", `${path} is not a time`, "Give a UTC time such as 2026-11-20T09:14:03.120Z.");
};

const id: Rule = (value, path) => {
  if (typeof value === "string" && UUID7.test(value)) return null;
  return refusal("bad-id", `${path} is not a UUID of version 7`, "Let the app make the id.");
};

const envelope = shape(
  {
    id,
    card: id,
    slot: text(),
    kind: text(),
    body: () => null,
    replaces: listOf(id, MOST_REPLACED),
    author: PERSON,
    device: PERSON,
    made_at: time,
    format: () => null,
  },
  { clock_off_ms: whole(-CLOCK_OFF_MS_MAX, CLOCK_OFF_MS_MAX) },
);

function place(entry: Record<string, unknown>): Refusal | null {
  const kind = String(entry.kind);
  const slot = parseSlot(String(entry.slot));
  if (!KIND_STANDS_IN.has(kind))
    return refusal(
      "unknown-kind",
      "The kind of this entry is not known",
      "Update the app, then send it again.",
    );
  if (slot === null)
    return refusal(
      "unknown-slot",
      "The entry is about nothing that is known",
      "Update the app, then send it again.",
    );
  if (!mayStand(kind, slot))
    return refusal("kind-not-in-slot", `A ${kind} cannot stand in this slot`, "Record it where it belongs.");
  return bodyRule(kind, slot)(entry.body, "body");
}

function replaces(entry: Record<string, unknown>): Refusal | null {
  const named = Array.isArray(entry.replaces) ? entry.replaces : [];
  if (named.includes(entry.id))
    return refusal("replaces-itself", "The entry replaces itself", "Name only earlier entries in replaces.");
  if (entry.kind === "retraction" && named.length === 0)
    return refusal(
      "replaces-nothing",
      "The retraction takes nothing back",
      "Name the entries it takes back.",
    );
  return null;
}
