/** A plate as it is typed, in one of the forms the shop told: A is a letter, 9 a digit, ? either; other signs stand between. */

export type PlateReading = {
  text: string;
  /** false when the shop told its forms and this is in none of them */
  usual: boolean;
};

/** Small letters become large; where a form fits, spaces and dashes are put as it has them; else they stay as typed. */
export function readPlate(typed: string, forms: readonly string[]): PlateReading {
  const text = typed.trim().toUpperCase().replace(/\s+/gu, " ");
  const signs = [...text].filter(isSign);
  const form = forms.find((one) => fits(signs, one));
  return {
    text: form === undefined ? text : written(signs, form),
    usual: form !== undefined || forms.length === 0,
  };
}

function fits(signs: readonly string[], form: string): boolean {
  const places = [...form].filter((one) => PLACES.has(one));
  return places.length === signs.length && places.every((place, at) => isOf(place, signs[at] ?? ""));
}

function isOf(place: string, sign: string): boolean {
  if (place === "?") return true;
  return /\p{Nd}/u.test(sign) === (place === "9");
}

function written(signs: readonly string[], form: string): string {
  const left = [...signs];
  return [...form].map((one) => (PLACES.has(one) ? left.shift() : one)).join("");
}

const PLACES = new Set(["A", "9", "?"]);

function isSign(one: string): boolean {
  return /[\p{L}\p{Nd}]/u.test(one);
}
