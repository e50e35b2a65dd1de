/** The parts of a piece of work: name, count, and whether new, used again or repaired. */
import type { WorkBody } from "../../journal/types";
import { Button } from "../../ui/button";
import { Pick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { numberOf } from "./figures";
import { say } from "./say";

type Part = WorkBody["parts"][number];
const STATES: readonly Part["state"][] = ["new", "re-used", "repaired"];

/** A part as it is being typed, its count as text. */
export type HalfPart = { name: string; count: string; state: Part["state"] };
export const NO_PART: HalfPart = { name: "", count: "1", state: "new" };

/** The typed part as one that can be kept; null while its name or its count is none. */
export function partOf({ name, count, state }: HalfPart): Part | null {
  const number = numberOf(count);
  return name.trim() !== "" && number !== null && number > 0
    ? { name: name.trim(), state, count: number }
    : null;
}

type Props = {
  parts: Part[];
  half: HalfPart;
  onChange: (change: { parts?: Part[]; half?: HalfPart }) => void;
};

export function Parts({ parts, half, onChange }: Props) {
  const part = partOf(half);
  const set = (change: Partial<HalfPart>) => onChange({ half: { ...half, ...change } });
  const isCountOdd = part === null && half.name.trim() !== "";
  return (
    <section class="stack">
      <h2>{say("parts")}</h2>
      <ul class="stack">
        {parts.map((part, at) => (
          <li key={`${part.name}/${at}`} class="row">
            <span class="grow">{`${part.count} × ${part.name} (${say(`part-${part.state}`)})`}</span>
            <Button
              name={say("part-remove", { name: part.name })}
              onTap={() => onChange({ parts: parts.filter((_, other) => other !== at) })}
            >
              ×
            </Button>
          </li>
        ))}
      </ul>
      <Field
        key={`name/${parts.length}`}
        label={say("part-name")}
        value={half.name}
        onType={(name) => set({ name })}
      />
      <Field
        key={`count/${parts.length}`}
        label={say("part-count")}
        kind="decimal"
        value={half.count}
        onType={(count) => set({ count })}

        told={isCountOdd ? <p class="told">{say("part-count-odd")}</p> : null}
      />
      <Pick
        legend={say("part-state")}
        picked={half.state}
        options={STATES.map((one) => ({ id: one, label: say(`part-${one}`) }))}
        onPick={(state) => set({ state })}
      />
      <Button
        disabled={part === null}
        onTap={() => part && onChange({ parts: [...parts, part], half: NO_PART })}
      >
        {say("part-add")}
      </Button>
    </section>
  );
}
