/** The closed set of things that can be wrong with a measurement or a calculation. */

export const ERROR_CODES = [
  "missing-input",
  "out-of-range",
  "wrong-unit",
  "unknown-unit",
  "not-a-number",
  "outside-domain",
  "too-large",
  "unknown-method",
] as const;
export type ErrorCode = (typeof ERROR_CODES)[number];

/** A calculation that has no answer: `code` for programs, `detail` says what is wrong with which input. */
export class MeasureError extends Error {
  readonly code: ErrorCode;
  readonly detail: string;

  constructor(code: ErrorCode, detail: string) {
    super(`${code}: ${detail}`);
    this.name = "MeasureError";
    this.code = code;
    this.detail = detail;
  }
}
