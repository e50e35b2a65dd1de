/** One card: what was complained of, what is left to do, what was found, and the way to the desk. */
import { useState } from "preact/hooks";
import type { CardState, ChecklistState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Mark } from "../../ui/mark";
import { EVERYTHING, go } from "../route";
import { useBegun } from "./begun";
import { HalfWrittenList } from "./half-written-list";
import { FindingRow } from "./findings";
import { Facts } from "./facts";
import type { OpenCard } from "./open-card";
import { PhotoButton, Thumbs } from "./photos";
import { Renewal } from "./renewal";
import { RoomNotice } from "./room-notice";
import { say } from "./say";
import { Screen } from "./shell";
import { roundName, vehicleName } from "./vehicle";
import { useBay } from "./context";
import { isLeft, walkSteps } from "./walk-order";
import { walkOn } from "./walked-to";

type Props = { card: OpenCard; state: CardState };

export function CardScreen({ card, state }: Props) {
  const { services } = useBay();
  const [round, setRound] = useState(state.round);
  return (
    <Screen
      title={vehicleName(state)}
      kicker={say("card")}
      back={{ at: "cards" }}
      card={card}
      look="card-screen"
      foot={<WalkButton card={card} state={state} round={round} />}
    >
      <Renewal services={services} />
      <RoomNotice />
      <StageLine state={state} />
      <HalfWrittenList card={card} state={state} />
      <Facts card={card} state={state} />
      <ComplaintList card={card} state={state} />
      <section class="stack">
        <h2>{say("checklists")}</h2>
        {state.round > 1 ? <RoundSwitch state={state} round={round} onRound={setRound} /> : null}
        {state.checklists.map((one) => (
          <ChecklistRow key={one.checklist.id} card={card} state={state} one={one} round={round} />
        ))}
        <Button onTap={() => go({ at: "book-in", card: card.id, part: "checklists" })}>
          {say(state.checklists.length > 0 ? "checklists-change" : "checklists-choose")}
        </Button>
      </section>
      <FindingList card={card} state={state} />
      <section class="stack">
        <h2>{say("photos")}</h2>
        <Thumbs card={card} photos={state.photos} />
        <PhotoButton card={card} about={null} round={state.round} />
      </section>
      <WorkList card={card} state={state} />
      <Stage card={card} state={state} />
      <p class="soft">{say("safety-says")}</p>
    </Screen>
  );
}

/** Where the card is on its way to the desk and back, before anything else; nothing while it is in the bay. */
function StageLine({ state }: { state: CardState }) {
  const { is } = state.stage;
  if (is === "disagreement") return <p class="told">{say("stage-disagreement-says")}</p>;
  if (is === "handed-in" || is === "signed") return <p class="told plain">{say(`stage-${is}`)}</p>;
  if (state.stage.is !== "sent-back") return null;
  return (
    <section class="told sent-back" aria-label={say("stage-sent-back")}>
      <h2>{say("stage-sent-back")}</h2>
      <p>{state.stage.entry.body.words}</p>
    </section>
  );
}

function WalkButton({ card, state, round }: Props & { round: number }) {
  const { book } = useBay();
  const walks = [round, ...roundsOf(state)].map((one) => {
    const steps = walkSteps(state, book.stations, one, EVERYTHING);
    return { round: one, steps, left: steps.filter((step) => isLeft(step, one)).length };
  });
  // where the round that is looked at is done, the walk goes on in one that is not
  const walk = walks.find(({ left }) => left > 0) ?? walks[0];
  if (state.checklists.length === 0)
    return (
      <Button look="strong" wide onTap={() => go({ at: "book-in", card: card.id, part: "checklists" })}>
        {say("checklists-choose")}
      </Button>
    );
  if (!walk) return null;
  const { left, steps } = walk;
  const start = { at: "walk", card: card.id, round: walk.round, scope: EVERYTHING, spot: null } as const;
  return (
    <Button look="strong" wide onTap={() => go(walkOn(steps, card.place.last.value, start))}>
      {say(left === 0 ? "walk-again" : "walk-on", { n: left, round: roundName(walk.round) })}
    </Button>
  );
}

function roundsOf(state: CardState): number[] {
  return Array.from({ length: state.round }, (_, at) => at + 1);
}

function RoundSwitch({
  state,
  round,
  onRound,
}: {
  state: CardState;
  round: number;
  onRound: (round: number) => void;
}) {
  return (
    <div class="switch" role="group" aria-label={say("round")}>
      {roundsOf(state).map((one) => (
        <Button key={one} pressed={one === round} onTap={() => onRound(one)}>
          {roundName(one)}
        </Button>
      ))}
    </div>
  );
}

function ChecklistRow({ card, state, one, round }: Props & { one: ChecklistState; round: number }) {
  const { book } = useBay();
  const { id, title } = one.checklist;
  const steps = walkSteps(state, book.stations, round, id);
  const left = steps.filter((step) => isLeft(step, round)).length;
  const asked = steps.filter((step) => step.step.check.answer.kind !== "worked-out").length;
  return (
    <Button wide onTap={() => go({ at: "walk", card: card.id, round, scope: id, spot: null })}>
      <span class="grow row-name">{title}</span>
      {steps.length === 0 ? (
        <Mark shape="hollow" word={say("not-in-round")} />
      ) : (
        <Mark
          shape={left === 0 ? "line" : "dashed"}
          word={left === 0 ? say("nothing-left") : say("left-of", { n: left, m: asked })}
        />
      )}
    </Button>
  );
}

function ComplaintList({ card, state }: Props) {
  return (
    <section class="stack">
      <h2>{say("complaints")}</h2>
      {state.complaints.length === 0 ? <p class="soft">{say("no-complaints")}</p> : null}
      {state.complaints.map((complaint) => (
        <Button
          key={complaint.id}
          wide
          onTap={() => go({ at: "complaint", card: card.id, complaint: complaint.id })}
        >
          <span class="grow row-name said">{complaint.words}</span>
          <span class="label">
            {say(complaint.outcome ? `outcome-${complaint.outcome.body.outcome}` : "outcome-open")}
          </span>
        </Button>
      ))}
    </section>
  );
}

function FindingList({ card, state }: Props) {
  return (
    <section class="stack">
      <h2>{say("findings")}</h2>
      {state.findings.map((finding) => (
        <FindingRow key={finding.slot} card={card} finding={finding} />
      ))}
      <Button onTap={() => go({ at: "findings", card: card.id })}>
        {say(state.proposals.length > 0 ? "findings-open" : "findings-all", { n: state.proposals.length })}
      </Button>
    </section>
  );
}

function WorkList({ card, state }: Props) {
  const begun = useBegun(card, state, "work");
  const record = () => begun((id) => go({ at: "work", card: card.id, work: id }));
  return (
    <section class="stack">
      <h2>{say("work-done")}</h2>
      {state.work.map((entry) => (
        <Button
          key={entry.id}
          wide
          onTap={() => go({ at: "work", card: card.id, work: entry.slot.split("/")[1] ?? "" })}
        >
          <span class="grow row-name">{entry.body.words}</span>
        </Button>
      ))}
      <div class="pair">
        <Button onTap={record}>{say("work-new")}</Button>
        <Button onTap={() => go({ at: "recheck", card: card.id })}>{say("recheck")}</Button>
      </div>
    </section>
  );
}

function Stage({ card, state }: Props) {
  return (
    <section class="stack">
      <h2>{say("desk")}</h2>
      <p>{say(`stage-${state.stage.is}`)}</p>
      {state.stage.is === "signed" && state.stage.changedSince ? (
        <p class="told">{say("changed-since")}</p>
      ) : null}
      <Button onTap={() => go({ at: "hand-in", card: card.id })}>{say("hand-in")}</Button>
    </section>
  );
}
