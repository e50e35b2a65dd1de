/**
 * Small rules for single values of an entry; larger rules are put together from them.
 *
 * A rule takes a value and the path to it and gives a Refusal, or null when the value is fine.
 */
import { refusal, type Refusal } from "./refusal";

export type Rule = (value: unknown, path: string) => Refusal | null;
export type Rules = Readonly<Record<string, Rule>>;

const LONGEST_TEXT = 10_000;
export const LARGEST_NUMBER = 1e15;
// Controls other than newline and tab, and halves of characters, which no database or printer takes.
const UNREADABLE = /[\x00-\x08\x0b-\x1f\x7f-\x9f\p{Surrogate}]/u;
const INK = /[^ \n\t]/;
const LINE_BREAK = /[\n\t]/;

/** Words of at most `most` characters; `filled`: not blank, without `lines`: on one line. */
export function text(most = LONGEST_TEXT, { filled = false, lines = true } = {}): Rule {
  return (value, path) => {
    if (typeof value !== "string") return refusal("wrong-type", `${path} is not text`, "Type words here.");
    if (value.length > most && [...value].length > most)
      return refusal("too-long", `${path} is longer than ${most} characters`, "Shorten it.");
    if (filled && !INK.test(value)) return refusal("too-few", `${path} is empty`, "Type at least a word.");
    if (UNREADABLE.test(value) || (!lines && LINE_BREAK.test(value)))
      return refusal(
        "unreadable-characters",
        `${path} holds characters that cannot be shown`,
        "Type it again.",
      );
    return null;
  };
}

/** A finite number from `low` to `high`. */
export function number(low = -LARGEST_NUMBER, high = LARGEST_NUMBER): Rule {
  return (value, path) => {
    if (typeof value !== "number" || !Number.isFinite(value))
      return refusal(
        "not-a-number",
        `${path} is not a number`,
        "Type digits with at most one comma or dot, such as 0,12.",
      );
    if (value < low || value > high)
      return refusal("out-of-range", `${path} is outside what is possible`, "Check the number and its unit.");
    return null;
  };
}

/** A whole number from `low` to `high`. */
export function whole(low: number, high: number): Rule {
  const inRange = number(low, high);
  return (value, path) => {
    const refused = inRange(value, path);
    if (refused || Number.isInteger(value)) return refused;
    return refusal("not-a-number", `${path} is not a whole number`, "Type a number without a fraction.");
  };
}

/** One of a closed set of words. */
export function oneOf(...words: string[]): Rule {
  return (value, path) => {
    if (typeof value === "string" && words.includes(value)) return null;
    return refusal(
      "unknown-word",
      `${path} is not one of the known words`,
      `Choose one of: ${words.join(", ")}.`,
    );
  };
}

/** Text that matches a pattern as a whole; `says` names the form for people. */
export function form(pattern: RegExp, says: string): Rule {
  return textFor((value) => pattern.test(value), says);
}

/** Text for which `check` holds; `says` names it for people. */
export function textFor(check: (value: string) => boolean, says: string): Rule {
  return (value, path) => {
    if (typeof value === "string" && value.length <= 500 && check(value)) return null;
    return refusal("wrong-form", `${path} is not ${says}`, `Give ${says}.`);
  };
}

/** A unit code; with `allowed`, one of those. */
export function unit(...allowed: string[]): Rule {
  const fits = (code: string) => (allowed.length > 0 ? allowed.includes(code) : /^[!-~]{1,80}$/.test(code));
  return (value, path) => {
    if (typeof value === "string" && fits(value)) return null;
    const todo =
      allowed.length > 0 ? `Use one of: ${allowed.join(", ")}.` : "Use a unit code such as mm or kPa.";
    return refusal("wrong-unit", `${path} is not a unit that fits`, todo);
  };
}

/** Null, or what the rule takes. */
export function orNull(rule: Rule): Rule {
  return (value, path) => (value === null ? null : rule(value, path));
}

/** A list of `least` to `most` values that each keep the rule. */
export function listOf(rule: Rule, most: number, least = 0): Rule {
  return (value, path) => {
    if (!Array.isArray(value)) return refusal("wrong-type", `${path} is not a list`, "Send a list here.");
    if (value.length > most) return refusal("too-many", `${path} holds more than ${most}`, "Leave some out.");
    if (value.length < least)
      return refusal("too-few", `${path} holds fewer than ${least}`, "Add what is missing.");
    return first(value, (one, place) => rule(one, `${path}[${place}]`));
  };
}

/** One to `most` named values. */
export function tableOf(key: Rule, rule: Rule, most: number): Rule {
  return (value, path) => {
    if (!isObject(value))
      return refusal("wrong-type", `${path} is not a table`, "Send names with values here.");
    const rows = Object.entries(value);
    if (rows.length === 0) return refusal("too-few", `${path} holds no values`, "Add what is missing.");
    if (rows.length > most) return refusal("too-many", `${path} holds more than ${most}`, "Leave some out.");
    return first(rows, ([name, one]) => key(name, path) ?? rule(one, `${path}.${name}`));
  };
}

/** An object with all the needed parts, any of the optional ones, and no other. */
export function shape(needed: Rules, optional: Rules = {}): Rule {
  const known = new Map(Object.entries({ ...needed, ...optional }));
  const names = Object.keys(needed);
  return (value, path) => {
    if (!isObject(value)) return refusal("wrong-type", `${path} is not an object`, "Send named parts here.");
    const missing = names.find((name) => !Object.hasOwn(value, name));
    if (missing !== undefined)
      return refusal("missing-part", `${path} lacks ${missing}`, `Fill in ${missing}.`);
    if (Object.keys(value).some((name) => !known.has(name)))
      return refusal(
        "unknown-part",
        `${path} has a part that is not known`,
        "Update the app, or leave out what docs/formats.md does not name.",
      );
    return first([...known], ([name, rule]) =>
      Object.hasOwn(value, name) ? rule(value[name], `${path}.${name}`) : null,
    );
  };
}

/** Every one of the rules; the first refusal counts. */
export function both(...rules: Rule[]): Rule {
  return (value, path) => first(rules, (rule) => rule(value, path));
}

/** Whether a value is a JSON object. */
export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function first<T>(items: readonly T[], rule: (item: T, place: number) => Refusal | null): Refusal | null {
  for (const [place, item] of items.entries()) {
    const refused = rule(item, place);
    if (refused) return refused;
  }
  return null;
}
