/** A worked-out answer: its inputs, its result, or what it lacks. */
import { parseSlot } from "../../../journal/slots";
import type { CardState } from "../../../journal/types";
import type { AnswerSpec, Method, Source } from "../../../measure/book";
import { Button } from "../../../ui/button";
import { Disclosure } from "../../../ui/disclosure";
import { go } from "../../route";
import { useBay } from "../context";
import { outcomeText, unitText, withUnit } from "../figures";
import { MakerAsk } from "../maker";
import type { OpenCard } from "../open-card";
import { say } from "../say";
import { factText } from "../vehicle";
import { outcomeIn } from "../walk-order";
import { basisText } from "../source-text";
import type { AnswerProps } from "./answer";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "worked-out" }> };

export function WorkedOut({ card, state, step, round, outcome, spec }: Props) {
  const { book } = useBay();
  const method = book.methods[spec.method];
  return (
    <section class="stack" aria-label={say("worked-out")}>
      <p class="reading alone">
        <span class="before">{say("worked-out")}</span>
        <span class="figure">
          {outcome.own ? withUnit(outcome.own.value, spec.decimals, outcome.own.unit) : "–"}
        </span>
      </p>
      {outcome.lacks.length > 0 ? (
        <p class="told">
          {say("lacks", { what: outcome.lacks.map((slot) => lackingName(slot, state, spec)).join("; ") })}
        </p>
      ) : null}
      <dl class="inputs">
        {Object.entries(spec.inputs).map(([name, source]) => (
          <div key={name}>
            <dt>{method?.inputs[name]?.says ?? name}</dt>
            <dd>
              <Input
                card={card}
                state={state}
                source={source}
                from={step.step.checklist}
                place={step.step.place.id}
                round={round}
              />
            </dd>
          </div>
        ))}
      </dl>
      {method ? <HowWorkedOut method={method} /> : null}
    </section>
  );
}

/** A missing input by name: the question of its check, or what is asked of the maker's data. */
function lackingName(slot: string, state: CardState, spec: Props["spec"]): string {
  const parsed = parseSlot(slot);
  if (parsed?.is === "check") {
    const steps = state.checklists.find((one) => one.checklist.id === parsed.checklist)?.steps ?? [];
    const found = steps.find(
      ({ step }) => step.check.id === parsed.check && step.place.id === parsed.position,
    );
    return found ? `${found.step.check.ask} (${found.step.place.title})` : slot;
  }
  const makers = Object.values(spec.inputs).find((one) => "maker" in one && slot.endsWith(one.maker));
  return makers && "ask" in makers ? makers.ask : slot;
}

type InputProps = {
  card: OpenCard;
  state: CardState;
  source: Source;
  from: string;
  place: string;
  round: number;
};

function Input({ card, state, source, from, place, round }: InputProps) {
  if ("maker" in source)
    return <MakerAsk card={card} state={state} name={source.maker} ask={source.ask} unit={source.unit} />;
  if ("fact" in source) return <FactInput card={card} state={state} slot={source.fact} />;
  if ("value" in source) return <span class="figure">{`${source.value} ${unitText(source.unit)}`}</span>;
  const steps = state.checklists.find((one) => one.checklist.id === from)?.steps ?? [];
  const same = steps.filter((one) => one.step.check.id === source.check);
  const at = source.at ?? place;
  const found = same.find((one) => one.step.place.id === at) ?? same[0];
  if (!found) return <span>{say("state-open")}</span>;
  const rounds = Array.from({ length: round }, (_, index) => outcomeIn(found, round - index));
  const known = rounds.find((one) => one.standing.length > 0);
  const spot = { checklist: from, check: source.check, place: found.step.place.id };
  return (
    <Button onTap={() => go({ at: "walk", card: card.id, round, scope: from, spot })}>
      <span class="figure">{known ? outcomeText(known, found.step.check.answer) : say("state-open")}</span>
      <span class="label">{found.step.check.ask}</span>
    </Button>
  );
}

function FactInput({ card, state, slot }: { card: OpenCard; state: CardState; slot: string }) {
  const fact = state.facts.get(slot);
  return (
    <Button onTap={() => go({ at: "book-in", card: card.id })}>
      <span class="figure">
        {fact ? `${factText(state, slot)} ${unitText(fact.unit ?? "")}` : say("state-open")}
      </span>
    </Button>
  );
}

function HowWorkedOut({ method }: { method: Method }) {
  return (
    <Disclosure title={method.says}>
      <p>{method.validity}</p>
      {method.cautions.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <p class="soft">{say("source", { source: method.source })}</p>
      <p class="soft">{say("basis", { basis: basisText(method.basis) })}</p>
    </Disclosure>
  );
}
