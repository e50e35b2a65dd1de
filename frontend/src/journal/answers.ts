/** The rules for the body of an answer, by what it `is`. */
import { refusal } from "./refusal";
import {
  both,
  form,
  isObject,
  listOf,
  number,
  oneOf,
  shape,
  tableOf,
  text,
  unit,
  whole,
  type Rule,
} from "./rules";

const MOST_REPEATS = 100;
const MOST_SAMPLES = 5_000;
const MOST_POINTS = 60;
const MOST_CODES = 200;
const LONGEST_RUN_S = 86_400;
// A phone may round the mean it shows; a value further off than this was not made from these repeats.
const MEAN_TOLERANCE = 0.005;

export const ID = form(/^[a-z0-9.-]{1,80}$/, "a short name of small letters, digits, dots and dashes");
export const ROUND = whole(1, 99);
const CODE = form(/^[A-Z0-9][A-Z0-9.-]{1,19}$/, "a trouble code such as P0299");
const NOTE = { note: text() };
const WITH_INSTRUMENT = { instrument: ID, ...NOTE };

const meanOfRepeats: Rule = (value, path) => {
  const body = isObject(value) ? value : {};
  if (!Array.isArray(body.repeats)) return null;
  const repeats = body.repeats.map(Number);
  const scale = Math.max(...repeats.map(Math.abs));
  const mean = repeats.reduce((sum, one) => sum + one, 0) / repeats.length;
  if (Math.abs(mean - Number(body.value)) <= MEAN_TOLERANCE * scale) return null;
  return refusal(
    "not-the-mean",
    `${path}.value is not the mean of its repeats`,
    "Take the mean of all repeats.",
  );
};

const inTimeOrder: Rule = (value, path) => {
  const times = Array.isArray(value) ? value.map((sample: unknown[]) => Number(sample[0])) : [];
  if (times.every((time, place) => place === 0 || time >= (times[place - 1] ?? 0))) return null;
  return refusal(
    "out-of-range",
    `${path} runs back in time`,
    "Send the readings in the order they were taken.",
  );
};

const pair = listOf(number(), 2, 2);
const seconds = number(0, LONGEST_RUN_S);
const sample: Rule = (value, path) =>
  pair(value, path) ?? (Array.isArray(value) ? seconds(value[0], `${path}[0]`) : null);

const ANSWERS = new Map<string, Rule>(
  Object.entries({
    choice: shape({ is: text(), choice: ID }, NOTE),
    number: both(
      shape(
        { is: text(), value: number(), unit: unit() },
        { typed: text(40, { lines: false }), repeats: listOf(number(), MOST_REPEATS, 1), ...WITH_INSTRUMENT },
      ),
      meanOfRepeats,
    ),
    spread: shape({ is: text(), values: tableOf(ID, number(), MOST_POINTS), unit: unit() }, WITH_INSTRUMENT),
    run: shape(
      { is: text(), samples: both(listOf(sample, MOST_SAMPLES, 1), inTimeOrder), unit: unit() },
      WITH_INSTRUMENT,
    ),
    codes: shape({ is: text(), codes: listOf(CODE, MOST_CODES) }, NOTE),
    text: shape({ is: text(), words: text(undefined, { filled: true }) }, NOTE),
  }),
);
const knownAnswer = oneOf(...ANSWERS.keys());

/** The rule for an answer's body. */
export const answer: Rule = (value, path) => {
  if (!isObject(value)) return refusal("wrong-type", `${path} is not an object`, "Send named parts here.");
  const rule = ANSWERS.get(String(value.is));
  return knownAnswer(value.is, `${path}.is`) ?? rule?.(value, path) ?? null;
};
