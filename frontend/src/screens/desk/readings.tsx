/** Every reading there is, in walking order, with who made it and what stood there before. */
import type { CardState, ChecklistState, StepState } from "../../journal/types";
import { Disclosure } from "../../ui/disclosure";
import { Reading } from "./evidence";
import { stepName } from "./evidence-of";
import { tell } from "./tell";
import { Trail } from "./trail";

export function EveryReading({ state }: { state: CardState }) {
  return (
    <section class="stack" aria-labelledby="every-reading">
      <h2 id="every-reading">{tell("readings")}</h2>
      {state.checklists.length === 0 ? <p class="soft">{tell("no-checklists")}</p> : null}
      {state.checklists.map((list) => (
        <ChecklistLines key={list.checklist.id} list={list} state={state} />
      ))}
    </section>
  );
}

function ChecklistLines({ list, state }: { list: ChecklistState; state: CardState }) {
  const told = list.steps.filter((step) =>
    step.rounds.some(({ state: is }) => is !== "not-asked" && is !== "open"),
  );
  const title = tell("checklist-done", {
    title: list.checklist.title,
    done: list.done,
    all: list.done + list.open,
  });
  return (
    <Disclosure title={title}>
      {told.length === 0 ? <p class="soft">{tell("no-readings")}</p> : null}
      <ul class="desk-lines">
        {told.map((step) => (
          <ReadingLine key={`${step.step.check.id}/${step.step.place.id}`} step={step} state={state} />
        ))}
      </ul>
    </Disclosure>
  );
}

function ReadingLine({ step, state }: { step: StepState; state: CardState }) {
  const { answer } = step.step.check;
  const note = step.rounds
    .flatMap(({ standing }) => standing)
    .find((entry) => entry.kind === "answer" && entry.body.note);
  const told = step.rounds.filter(({ state: is }) => is !== "open" && is !== "not-asked");
  return (
    <li>
      <div class="grow">
        <p>{stepName(step)}</p>
        {note?.kind === "answer" ? (
          <p class="soft" dir="auto">
            {tell("note", { words: note.body.note ?? "" })}
          </p>
        ) : null}
      </div>
      <div class="grow">
        {told.map((outcome) => (
          <div key={outcome.slot}>
            <Reading outcome={outcome} spec={answer} />
            <Trail state={state} slot={outcome.slot} />
          </div>
        ))}
      </div>
    </li>
  );
}
