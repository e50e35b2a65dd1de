/** What a person types on the number pad, and the number it means. */

/** `do` says in English what to change; `code` is for catalogues. */
export type Typed =
  | { ok: true; value: number }
  | { ok: false; code: "empty" | "unfinished" | "not-a-number" | "not-a-fraction"; do: string };

const PLAIN = /^[-−+]?(\d+([.,]\d*)?|[.,]\d+)$/;
const THIRTY_SECONDS = /^(\d+)(?:\/32)?$/;

/** The number in a typed text; comma and dot mean the same, both are decimal marks, and grouping marks are refused. */
export function parseTyped(typed: string): Typed {
  const text = typed.trim();
  if (text === "") return { ok: false, code: "empty", do: "Type a number." };
  if (/^[-−+]?[.,]?$/.test(text)) return { ok: false, code: "unfinished", do: "Type the digits too." };
  if (!PLAIN.test(text))
    return { ok: false, code: "not-a-number", do: "Type digits with one comma or one dot." };
  return { ok: true, value: Number(text.replace(",", ".").replace("−", "-")) };
}

/** A tread depth typed in 32nds of an inch, "5" or "5/32"; the value is the count of 32nds. */
export function parseThirtySeconds(typed: string): Typed {
  const text = typed.trim();
  if (text === "") return { ok: false, code: "empty", do: "Type a number." };
  const count = THIRTY_SECONDS.exec(text)?.[1];
  if (count === undefined)
    return { ok: false, code: "not-a-fraction", do: "Type whole 32nds, such as 5 or 5/32." };
  return { ok: true, value: Number(count) };
}

export type PadKey =
  "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "," | "." | "sign" | "erase" | "clear";

/** The text after a key. No digit is ever lost: a second mark is not taken, and the sign can be set at any time. */
export function press(typed: string, key: PadKey): string {
  switch (key) {
    case "erase":
      return typed.slice(0, -1);
    case "clear":
      return "";
    case "sign":
      return typed.startsWith("-") ? typed.slice(1) : `-${typed}`;
    case ",":
    case ".":
      return /[.,]/.test(typed) ? typed : typed + key;
    default:
      return typed + key;
  }
}
