/** The rules for the body of every kind of entry (docs/formats.md section 1). */
import { answer, ID, ROUND } from "./answers";
import {
  form,
  LARGEST_NUMBER,
  listOf,
  number,
  oneOf,
  orNull,
  shape,
  text,
  textFor,
  unit,
  whole,
  type Rule,
} from "./rules";
import { aboutCheck, parseSlot, type Slot } from "./slots";
import type { Kind } from "./types";

const MOST_NAMED = 500;
const LARGEST_BLOB = 1_000_000_000;
const GRADE = oneOf("advice", "minor", "major", "dangerous");
const SHA256 = form(/^[0-9a-f]{64}$/, "a SHA-256 in hex");
const A_UUID = form(/^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/, "a UUID");
const ATOM = String.raw`[^\x00-\x20\x7f-\xa0@<>"(),;:\\.`;
const EMAIL = form(
  new RegExp(String.raw`^(?=.{3,254}$)${ATOM}]+(\.${ATOM}]+)*@${ATOM}]+(\.${ATOM}]+)+$`),
  "an e-mail address",
);
const SOUND_MIME = form(
  /^audio\/(webm|mp4|ogg|wav|mpeg|aac)(; ?codecs=[a-z0-9."]{1,20})?$/,
  "a kind of sound file",
);
const FINDING_SLOT = textFor((slot) => {
  const is = parseSlot(slot)?.is;
  return is === "finding" || is === "finding-at";
}, "the slot of a finding");
const MEDIA_SLOT = textFor((slot) => {
  const parsed = parseSlot(slot);
  return parsed?.is === "photo" || parsed?.is === "sound";
}, "the slot of a photo or sound");
const ANY_SLOT = textFor((slot) => parseSlot(slot) !== null, "a slot");
const CHECK_ABOUT = textFor((about) => aboutCheck(about) !== null, "a check's slot without its round");
const ABOUT = textFor((about) => (parseSlot(about) ?? aboutCheck(about)) !== null, "a slot");
const LINE = text(500, { lines: false });
const PLATE = text(40, { filled: true, lines: false });
const WORDS = shape({ words: text() });

const aValue: Rule = (value, path) =>
  typeof value === "string" ? text()(value, path) : number()(value, path);
const yearInWords = form(/^[12][0-9]{3}$/, "a year");
const yearInDigits = whole(1850, 2250);
const aYear: Rule = (value, path) => (typeof value === "string" ? yearInWords : yearInDigits)(value, path);
const DATE = /^[0-9]{4}-[0-9]{2}-[0-9]{2}([T ][0-9:.]{5,12}Z?)?$/;

const ANY_FACT = shape({ value: aValue }, { unit: unit() });
const MAKER_FACT = shape({ value: number(), unit: unit() });
const FACTS = new Map<string, Rule>(
  Object.entries({
    "vehicle/vin": shape({ value: PLATE }),
    "vehicle/plate": shape({ value: PLATE }),
    "vehicle/make": shape({ value: LINE }),
    "vehicle/model": shape({ value: LINE }),
    "vehicle/year": shape({ value: aYear }),
    "vehicle/fuel": shape({ value: LINE }),
    "vehicle/odometer": shape({ value: number(0, 10_000_000), unit: unit("km", "[mi_i]") }),
    "vehicle/modifications": shape({ value: text() }),
    "customer/name": shape({ value: LINE }),
    "customer/email": shape({ value: EMAIL }),
    "card/planned-use": shape({ value: text() }),
    "card/title": shape({ value: LINE }),
    "card/opened": shape({ value: form(DATE, "a date such as 2026-11-20") }),
  }),
);
const BLOB = {
  blob: SHA256,
  bytes: whole(1, LARGEST_BLOB),
  about: orNull(ABOUT),
  round: ROUND,
  caption: text(),
};
const PART = shape({ name: LINE, state: oneOf("new", "re-used", "repaired"), count: number(0, 100_000) });

const BODIES: Record<Exclude<Kind, "fact">, Rule> = {
  complaint: shape({ words: text(undefined, { filled: true }) }),
  "complaint-outcome": shape({
    outcome: oneOf("cause-found", "ruled-out", "not-traced"),
    findings: listOf(FINDING_SLOT, MOST_NAMED),
    words: text(),
  }),
  "checklist-chosen": shape({ version: whole(1, 1_000_000), sha256: SHA256 }),
  answer,
  "not-checked": shape({
    reason: oneOf("no-access", "not-fitted", "no-tool", "unsafe", "no-time", "customer-declined", "other"),
    words: text(),
  }),
  finding: shape({
    title: text(500, { filled: true, lines: false }),
    plain: text(),
    grade: GRADE,
    about: orNull(CHECK_ABOUT),
    place: orNull(ID),
    complaints: listOf(A_UUID, MOST_NAMED),
    photos: listOf(A_UUID, MOST_NAMED),
    proposed: orNull(shape({ grade: GRADE, title: text(500), limit: ID })),
    note: text(),
  }),
  "finding-declined": WORDS,
  photo: shape({ ...BLOB, mime: oneOf("image/jpeg"), width: whole(1, 100_000), height: whole(1, 100_000) }),
  sound: shape({ ...BLOB, mime: SOUND_MIME, seconds: number(0, 86_400) }),
  "work-done": shape({
    findings: listOf(FINDING_SLOT, MOST_NAMED),
    words: text(),
    parts: listOf(PART, MOST_NAMED),
    torque: text(),
    improvised: text(),
  }),
  agreed: shape({
    answer: oneOf("go-ahead", "not-now", "no"),
    by: LINE,
    how: oneOf("in person", "by phone", "in writing"),
  }),
  "handed-in": WORDS,
  "sent-back": shape({ words: text(), slots: listOf(ANY_SLOT, MOST_NAMED) }),
  "signed-off": shape(
    {
      revision: whole(1, 1_000_000),
      count: whole(0, LARGEST_NUMBER),
      digest: SHA256,
      arrival: whole(0, LARGEST_NUMBER),
      sha256: SHA256,
      drive: oneOf("yes", "with-restrictions", "no", "not-judged"),
      restrictions: text(),
      look_again: text(),
      words: text(),
    },
    {
      without_photos: shape({
        why: text(undefined, { filled: true }),
        missing: listOf(MEDIA_SLOT, MOST_NAMED, 1),
      }),
    },
  ),
  retraction: shape({}),
};
const BY_KIND = new Map<string, Rule>(Object.entries(BODIES));

/** The rule for the body of a known kind in a slot it may stand in; facts go by their field. */
export function bodyRule(kind: string, slot: Slot): Rule {
  if (slot.is === "fact" && kind === "fact") return FACTS.get(`${slot.of}/${slot.name}`) ?? ANY_FACT;
  return kind === "fact" ? MAKER_FACT : (BY_KIND.get(kind) ?? WORDS);
}
