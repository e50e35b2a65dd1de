/** What only a person can decide: disagreements, undecided proposals, readings too close to call. */
import { useState } from "preact/hooks";
import type { CardState, Proposal } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { useBay } from "../bay/context";
import { becauseText } from "../bay/figures";
import { GradeMark } from "../bay/marks";
import type { OpenCard } from "../bay/open-card";
import { proposedBody } from "../bay/proposal";
import { roundName } from "../bay/vehicle";
import { entryWords } from "./entry-words";
import { Rounds } from "./evidence";
import { stepName, stepOfSlot } from "./evidence-of";
import { stepsThatAre, worstFirst, type Reading } from "./needs";
import { tell } from "./tell";
import { Trail, Who } from "./trail";

type Props = { card: OpenCard; state: CardState };

export function ToSettle({ card, state }: Props) {
  const close = stepsThatAre(state, "too-close");
  if (state.disagreements.length + state.proposals.length + close.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="to-settle">
      <h2 id="to-settle">{tell("to-settle")}</h2>
      {state.disagreements.map((slot) => (
        <Disagreement key={slot} card={card} state={state} slot={slot} />
      ))}
      {worstFirst(state.proposals).map((proposal) => (
        <ProposalSheet key={proposal.slot} card={card} state={state} proposal={proposal} />
      ))}
      {close.map((reading) => (
        <TooClose key={reading.outcome.slot} state={state} reading={reading} />
      ))}
    </section>
  );
}

function Disagreement({ card, state, slot }: Props & { slot: string }) {
  const standing = state.standing.get(slot) ?? [];
  const about = stepOfSlot(state, slot);
  return (
    <article class="desk-finding" aria-label={tell("disagreement")}>
      <header>
        <p class="mark">{tell("disagreement")}</p>
        <h3>{about ? stepName(about) : slotName(slot)}</h3>
      </header>
      <p class="soft">{tell("settle-here")}</p>
      <ul class="desk-lines">
        {standing.map((entry) => (
          <li key={entry.id}>
            <p class="grow" dir="auto">
              <strong>{entryWords(entry, state)}</strong>{" "}
              <span class="soft">
                <Who entry={entry} state={state} />
              </span>
            </p>
            <Button
              calm
              name={tell("settle-choose-name", { what: entryWords(entry, state) })}
              onTap={() => void card.keep(entry.kind, entry.slot, entry.body)}
            >
              {tell("settle-choose")}
            </Button>
          </li>
        ))}
      </ul>
    </article>
  );
}

/** A slot that is no step, in words as far as there are any. */
function slotName(slot: string): string {
  const [first = ""] = slot.split("/");
  if (first === "stage") return tell("slot-stage");
  if (first === "finding" || first === "agreed") return tell("slot-finding");
  return slot.split("/").slice(1).join(" ");
}

function ProposalSheet({ card, state, proposal }: Props & { proposal: Proposal }) {
  const [why, setWhy] = useState<string | null>(null);
  const { outcome, step, slot } = proposal;
  const title = outcome.title ?? step.check.ask;
  return (
    <article class="desk-finding" aria-label={title}>
      <header>
        {outcome.grade ? <GradeMark grade={outcome.grade} /> : null}
        <h3>{title}</h3>
        <p class="desk-place">{tell("at-place", { place: step.place.title })}</p>
      </header>
      <p>{tell("proposal-says", { ask: step.check.ask, what: becauseText(outcome, step.check.answer) })}</p>
      <Trail state={state} slot={outcome.slot} />
      {why === null ? null : (
        <Field label={tell("decline-why")} value={why} onType={setWhy} onLeave={setWhy} lines />
      )}
      <div class="row">
        <Button
          look="strong"
          calm
          name={tell("accept-name", { what: title })}
          onTap={() => void card.keep("finding", slot, proposedBody(proposal, state))}
        >
          {tell("accept")}
        </Button>
        <Button
          calm
          name={tell("decline-name", { what: title })}
          disabled={why !== null && why.trim() === ""}
          onTap={() => {
            if (why === null) setWhy("");
            else void card.keep("finding-declined", slot, { words: why.trim() });
          }}
        >
          {tell("decline")}
        </Button>
      </div>
    </article>
  );
}

/** The reading, its limit, and what would make it clear. */
function TooClose({ state, reading: { step, round, outcome } }: { state: CardState; reading: Reading }) {
  const { book } = useBay();
  const { repeats = null, instrument = null } = outcome.settle ?? {};
  const finer = instrument ? book.instruments[instrument]?.title : undefined;
  return (
    <article class="desk-finding" aria-label={stepName(step)}>
      <header>
        <p class="mark">{tell("too-close")}</p>
        <h3>{stepName(step)}</h3>
        <p class="desk-place">{roundName(round)}</p>
      </header>
      <Rounds step={step} state={state} />
      {repeats ? <p>{tell("settle-repeats", { count: repeats })}</p> : null}
      {finer ? <p>{tell("settle-instrument", { what: finer })}</p> : null}
      {!repeats && !finer ? <p>{tell("settle-unknown")}</p> : null}
    </article>
  );
}
