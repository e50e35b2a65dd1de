/** Stored trouble codes, typed one by one; none stored is an answer too. */
import { Button } from "../../../ui/button";
import { Field } from "../../../ui/field";
import { asText, useDraft } from "../draft";
import { say } from "../say";
import { answerOf, keepAnswer, type AnswerProps } from "./answer";

/** Five signs: a letter for the system, a digit 0-3, three hexadecimal digits (SAE J2012 / ISO 15031-6). */
const CODE = /^[PCBU][0-3][0-9A-F]{3}$/;

export function CodesAnswer(props: AnswerProps) {
  const { card, outcome } = props;
  const [held, setDraft] = useDraft(`${card.id}/${outcome.slot}`, asCodes);
  const [half, setTyped] = useDraft(`${card.id}/${outcome.slot}/half`, asText);
  const typed = half ?? "";
  const standing = answerOf(outcome);
  const codes = held ?? (standing?.is === "codes" ? standing.codes : []);
  const code = typed.trim().toUpperCase().replace(/\s+/g, "");
  const good = CODE.test(code);
  // a whole code that was typed and not added is meant as well
  const all = good ? [...new Set([...codes, code])] : codes;
  const add = () => {
    setDraft(all);
    setTyped(null);
  };
  const keep = async (list: string[]) => {
    if (!(await keepAnswer(props, { is: "codes", codes: list }))) return;
    setDraft(null);
    setTyped(null);
  };
  return (
    <div class="stack">
      <ul class="codes">
        {codes.map((one) => (
          <li key={one}>
            <Button
              name={say("code-remove", { code: one })}
              onTap={() => setDraft(codes.filter((kept) => kept !== one))}
            >
              <span class="figure">{one}</span> ×
            </Button>
          </li>
        ))}
      </ul>
      <Field
        key={codes.length}
        label={say("code")}
        figure
        value={typed}
        onType={setTyped}
        hint={say("code-hint")}
        beside={
          <Button disabled={!good} onTap={add}>
            {say("code-add")}
          </Button>
        }
        told={code.length >= 5 && !good ? <p class="told">{say("code-wrong")}</p> : null}
      />
      <Button look="strong" wide calm disabled={all.length === 0} onTap={() => void keep(all)}>
        {say("codes-keep", { count: all.length })}
      </Button>
      <Button wide calm disabled={all.length > 0} onTap={() => void keep([])}>
        {say("no-codes")}
      </Button>
    </div>
  );
}

function asCodes(kept: unknown): string[] | null {
  return Array.isArray(kept) ? kept.filter((one) => typeof one === "string") : null;
}
