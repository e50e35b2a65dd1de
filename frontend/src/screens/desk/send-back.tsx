/** Sends a card back to the bay: what to do in words, and the checks it is about ticked. */
import { useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Disclosure } from "../../ui/disclosure";
import { Field } from "../../ui/field";
import type { OpenCard } from "../bay/open-card";
import { roundName } from "../bay/vehicle";
import { stepName } from "./evidence-of";
import { openSteps, stepsThatAre, type Reading } from "./needs";
import { tell, type DeskKey } from "./tell";

type Props = { card: OpenCard; state: CardState; onDone: () => void };

const MOST_NAMED = 500;

export function SendBack({ card, state, onDone }: Props) {
  const [words, setWords] = useState("");
  const [slots, setSlots] = useState<readonly string[]>([]);
  const tick = (slot: string, on: boolean) =>
    setSlots((last) => (on ? [...last, slot] : last.filter((one) => one !== slot)).slice(0, MOST_NAMED));
  const send = async () => {
    const entry = await card.keep("sent-back", "stage", { words: words.trim(), slots: [...slots] });
    if (entry) onDone();
  };
  return (
    <div class="stack">
      <h3>{tell("send-back-title")}</h3>
      <Field
        label={tell("remark")}
        hint={tell("remark-needed")}
        value={words}
        onType={setWords}
        onLeave={setWords}
        lines
      />
      {choices(state).map(({ key, readings }) => (
        <TickList key={key} title={key} readings={readings} slots={slots} onTick={tick} />
      ))}
      <p role="status">{slots.length > 0 ? tell("sent-back-checks", { count: slots.length }) : ""}</p>
      <div class="row">
        <Button look="strong" calm disabled={words.trim() === ""} onTap={() => void send()}>
          {tell("send-back")}
        </Button>
        <Button onTap={onDone}>{tell("cancel")}</Button>
      </div>
    </div>
  );
}

type TickKey = Extract<DeskKey, `tick-${string}`>;

/** The checks a remark may be about, the most likely first. */
function choices(state: CardState): { key: TickKey; readings: Reading[] }[] {
  const lists: { key: TickKey; readings: Reading[] }[] = [
    { key: "tick-disagreement", readings: stepsThatAre(state, "disagreement") },
    { key: "tick-too-close", readings: stepsThatAre(state, "too-close") },
    { key: "tick-not-checked", readings: stepsThatAre(state, "not-checked") },
    { key: "tick-open", readings: openSteps(state) },
  ];
  return lists.filter(({ readings }) => readings.length > 0);
}

type ListProps = {
  title: TickKey;
  readings: Reading[];
  slots: readonly string[];
  onTick: (slot: string, on: boolean) => void;
};

function TickList({ title, readings, slots, onTick }: ListProps) {
  return (
    <Disclosure title={tell(title, { count: readings.length })}>
      <ul class="desk-ticks">
        {readings.map(({ step, round, outcome }) => (
          <li key={outcome.slot}>
            <label>
              <input
                type="checkbox"
                checked={slots.includes(outcome.slot)}
                onChange={(event) => onTick(outcome.slot, event.currentTarget.checked)}
              />
              <span>
                {stepName(step)}
                {round > 1 ? ` · ${roundName(round)}` : ""}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </Disclosure>
  );
}
