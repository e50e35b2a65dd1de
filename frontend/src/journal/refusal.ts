/** What the judge says when it does not take an entry. */

export const REFUSAL_CODES = [
  "not-an-entry",
  "newer-format",
  "bad-id",
  "unknown-kind",
  "unknown-slot",
  "kind-not-in-slot",
  "replaces-itself",
  "replaces-nothing",
  "missing-part",
  "unknown-part",
  "wrong-type",
  "not-a-number",
  "out-of-range",
  "not-the-mean",
  "wrong-unit",
  "unknown-word",
  "wrong-form",
  "too-long",
  "too-few",
  "too-many",
  "unreadable-characters",
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

/** Why an entry was not taken: a code for programs, a title and what to do in plain words for people. */
export type Refusal = { code: RefusalCode; title: string; do: string };

/** A refusal from its three parts. */
export function refusal(code: RefusalCode, title: string, todo: string): Refusal {
  return { code, title, do: todo };
}
