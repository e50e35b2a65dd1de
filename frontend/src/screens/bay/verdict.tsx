/** The verdict at once, with the limit and its source one tap away, and the finding it proposes. */
import { isNumeric, valuesOf } from "../../journal/reading";
import type { CardState, LimitOutcome, StepOutcome, StepState } from "../../journal/types";
import type { Instrument } from "../../measure/book";
import { formatNumber } from "../../words/words";
import { Disclosure } from "../../ui/disclosure";
import { useBay } from "./context";
import { limitText, outcomeLook, outcomeText, unitText } from "./figures";
import type { OnKept } from "./keeping";
import { MakerAsk } from "./maker";
import { GradeMark, OutcomeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { ProposalBox } from "./proposal";
import { say } from "./say";
import { Settle } from "./settle";
import { basisText } from "./source-text";

type VerdictProps = {
  card: OpenCard;
  state: CardState;
  step: StepState;
  round: number;
  outcome: StepOutcome;
};

export function Verdict({ card, state, step, round, outcome, onKept }: VerdictProps & { onKept: OnKept }) {
  const { check } = step.step;
  const proposal = state.proposals.find(
    (one) => one.round === round && one.outcome.slot === outcome.slot && one.step.check.id === check.id,
  );
  const answered = outcome.state !== "open" && outcome.state !== "not-asked";
  return (
    <>
      {answered ? (
        <section class="verdict" aria-live="polite" aria-label={say("verdict")}>
          <p class="verdict-line">
            <OutcomeMark outcome={outcome} />
            <span class={outcomeLook(outcome, check.answer)}>{outcomeText(outcome, check.answer)}</span>
          </p>
          {outcome.title && outcome.grade && !proposal ? <p>{outcome.title}</p> : null}
          <Closeness outcome={outcome} />
          {outcome.state === "beyond" && check.if_failed ? <p class="told plain">{check.if_failed}</p> : null}
          {outcome.state === "disagreement" ? <Settle {...{ card, state, outcome, step, onKept }} /> : null}
        </section>
      ) : null}
      {proposal ? <ProposalBox card={card} state={state} proposal={proposal} /> : null}
    </>
  );
}

function Closeness({ outcome }: { outcome: StepOutcome }) {
  const { book } = useBay();
  if (outcome.state !== "too-close") return null;
  const { settle, u, unit } = outcome;
  const finer: Instrument | undefined = settle?.instrument ? book.instruments[settle.instrument] : undefined;
  const more = settle?.repeats ? settle.repeats - readingsTaken(outcome) : 0;
  return (
    <div class="told">
      <p>
        {say("too-close-says", {
          u: formatNumber(Number((2 * (u ?? 0)).toPrecision(2))),
          unit: unitText(unit ?? ""),
        })}
      </p>
      {more > 0 ? <p>{say("settle-repeats", { count: more })}</p> : null}
      {finer ? <p>{say("settle-instrument", { what: finer.title })}</p> : null}
      {more > 0 || finer ? null : <p>{say("settle-unknown")}</p>}
    </div>
  );
}

/** `settle` counts readings in all; the person wants to know how many are still to be taken. */
function readingsTaken({ standing: [entry] }: StepOutcome): number {
  return entry?.kind === "answer" && isNumeric(entry.body) ? valuesOf(entry.body).length : 1;
}

/** The limits of a check, their sources one tap away, and the maker's figures still asked for. */
export function Limits({ card, state, step, outcome }: Omit<VerdictProps, "round">) {
  if (step.step.check.limits.length === 0) return null;
  const rows: LimitOutcome[] = step.step.check.limits.map(
    (limit) =>
      outcome.limits.find((one) => one.limit.id === limit.id) ?? {
        limit,
        state: "unknown",
        bound: boundOf(limit),
      },
  );
  const unknown = rows.filter((row) => row.limit.maker && row.bound === null);
  return (
    <>
      {unknown.map((row) => (
        <MakerAsk
          key={row.limit.id}
          card={card}
          state={state}
          name={row.limit.maker?.key ?? ""}
          ask={row.limit.maker?.ask ?? ""}
          unit={row.limit.unit}
        />
      ))}
      <Disclosure title={rows.map((row) => limitText(row.limit, row.bound)).join(" · ")}>
        {rows.map((row) => (
          <dl key={row.limit.id} class="source">
            <dt>
              <GradeMark grade={row.limit.grade} /> {limitText(row.limit, row.bound)}
            </dt>
            <dd>{row.limit.title}</dd>
            <dd class="soft">{say("source", { source: row.limit.source })}</dd>
            <dd class="soft">{say("basis", { basis: basisText(row.limit.basis) })}</dd>
            <dd class="soft">{say("applies", { applies: row.limit.applies })}</dd>
          </dl>
        ))}
        <p class="soft">{say("maker-first")}</p>
      </Disclosure>
    </>
  );
}

function boundOf(limit: LimitOutcome["limit"]): number | null {
  return limit.above ?? limit.below ?? null;
}
