/** A field of the card: a draft at every key, an entry when it is left. */
import { useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { Field } from "../../ui/field";
import { asText, useDraft } from "./draft";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { factText } from "./vehicle";

type Props = {
  card: OpenCard;
  state: CardState;
  slot: string;
  label: string;
  lines?: boolean;
  figure?: boolean;
  kind?: "text" | "email";
  /** a whole number from lo to hi */
  number?: readonly [number, number];
  unit?: string;
  /** what is kept in place of the typed text, as soon as the field is left */
  tidy?: (typed: string) => string;
  /** a plain remark on what is kept, or none */
  remark?: (kept: string) => string;
};

export function FactField({
  card,
  state,
  slot,
  label,
  lines = false,
  figure = false,
  kind = "text",
  number,
  unit,
  tidy = (typed) => typed,
  remark = () => "",
}: Props) {
  const [draft, setDraft] = useDraft(`${card.id}/${slot}`, asText);
  const [wrong, setWrong] = useState("");
  const kept = factText(state, slot);
  const whyNot = (text: string) => wrongWith(tidy(text.trim()), kind, number);
  // A draft found here may be another tab's: once the fact changed without typing here, that draft is over.
  const [found, setFound] = useState<string | null>(kept);
  const isOver = found !== null && found !== kept;
  // What was left here half right says so again when one comes back to it; while it is being typed it is let be.
  const told = wrong || (draft !== null && found !== null && !isOver ? whyNot(draft) : "") || remark(kept);
  const keep = async (text: string) => {
    const why = whyNot(text);
    setWrong(why);
    if (why !== "") return;
    const plain = tidy(text.trim());
    const value = number ? (wholeNumber(plain) ?? "") : plain;
    const isKept = await changeFact(card, slot, value, kept, unit);
    if (isKept) setDraft((now) => (now === text ? null : now));
    else if (card.refusal.peek()) {
      // told here, beside the field, and not once more above them all
      card.refusal.value = null;
      setWrong(say("fact-odd"));
    }
  };
  return (
    <Field
      label={label}
      value={isOver ? kept : (draft ?? kept)}
      lines={lines}
      figure={figure}
      kind={number ? "numeric" : kind}
      onType={(text) => {
        setFound(null);
        setDraft(text);
      }}
      onLeave={(text) => void keep(text)}
      told={told === "" ? null : <p class="told">{told}</p>}
    />
  );
}

/** Keeps a fact, or takes it back when its text is gone. False when the phone could not keep it. */
export async function changeFact(
  card: OpenCard,
  slot: string,
  value: string | number,
  kept: string,
  unit?: string,
): Promise<boolean> {
  if (String(value) === kept) return true;
  if (value !== "") return (await card.keep("fact", slot, unit ? { value, unit } : { value })) !== null;
  const standing = card.standing(slot);
  return standing === null || (await card.takeBack(standing, null)) !== null;
}

function wrongWith(text: string, kind: Props["kind"], number: Props["number"]): string {
  if (text === "") return "";
  if (kind === "email") return EMAIL.test(text) ? "" : say("email-odd");
  if (number === undefined || isWithin(wholeNumber(text), number)) return "";
  const [lo, hi] = number.map((bound) => (bound < LEAST_GROUPED ? String(bound) : bound));
  return say("whole-number", { lo: lo ?? "", hi: hi ?? "" });
}

const EMAIL = /^[^\s@]+@[^\s@.]+(\.[^\s@.]+)+$/;
/** A year has no mark between its thousands. */
const LEAST_GROUPED = 10_000;
const PLAIN = /^\d{1,9}$/;
const GROUPED = /^\d{1,3}([\s.,'’]\d{2,3})*[\s.,'’]\d{3}$/;

/** Digits, perhaps with marks between the thousands, as a number; null when it is none or has a fraction. */
export function wholeNumber(text: string): number | null {
  if (!PLAIN.test(text) && !GROUPED.test(text)) return null;
  const digits = text.replace(/\D/g, "");
  return PLAIN.test(digits) ? Number(digits) : null;
}

function isWithin(value: number | null, [lo, hi]: readonly [number, number]): boolean {
  return value !== null && value >= lo && value <= hi;
}
