/** What the customer answered to one finding, and how: recorded here when they are on the phone. */
import { useState } from "preact/hooks";
import type { AgreedBody, CardState, Finding } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import type { OpenCard } from "../bay/open-card";
import { tell } from "./tell";
import { Trail } from "./trail";

const ANSWERS: readonly AgreedBody["answer"][] = ["go-ahead", "not-now", "no"];
const WAYS: readonly AgreedBody["how"][] = ["by phone", "in person", "in writing"];

type Props = { card: OpenCard; state: CardState; finding: Finding };

export function Agreed({ card, state, finding }: Props) {
  const present = finding.agreed?.body;
  const [by, setBy] = useState(present?.by ?? "");
  const [how, setHow] = useState<AgreedBody["how"]>(present?.how ?? "by phone");
  const keep = (answer: AgreedBody["answer"]) =>
    void card.keep("agreed", `agreed/${finding.slot}`, { answer, by: by.trim(), how });
  return (
    <details class="desk-agreed">
      <summary>
        <span class="label">{tell("agreed")}</span>{" "}
        <span>{present ? agreedText(present) : tell("agreed-none")}</span>
      </summary>
      <div class="stack">
        <Field label={tell("who-agreed")} value={by} onType={setBy} onLeave={setBy} />
        <div class="row" role="group" aria-label={tell("how-agreed")}>
          {WAYS.map((way) => (
            <Button key={way} pressed={how === way} onTap={() => setHow(way)}>
              {tell(`how-${way}`)}
            </Button>
          ))}
        </div>
        <div class="row" role="group" aria-label={tell("agreed")}>
          {ANSWERS.map((answer) => (
            <Button
              key={answer}
              calm
              disabled={by.trim() === ""}
              pressed={present?.answer === answer}
              onTap={() => keep(answer)}
            >
              {tell(`agreed-${answer}`)}
            </Button>
          ))}
        </div>
        {by.trim() === "" ? <p class="soft">{tell("who-agreed-needed")}</p> : null}
        {finding.agreed ? <Trail state={state} slot={finding.agreed.slot} /> : null}
      </div>
    </details>
  );
}

function agreedText({ answer, by, how }: AgreedBody): string {
  return tell("agreed-how", { answer: tell(`agreed-${answer}`), by, how: tell(`how-${how}`) });
}
