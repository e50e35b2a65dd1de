/** The desk's first screen: what waits for the foreman on top, each card in one row that says what it asks. */
import type { CardState } from "../../journal/types";
import { useBay } from "../bay/context";
import { GradeMark } from "../bay/marks";
import { odometerText, vehicleName } from "../bay/vehicle";
import { go } from "../route";
import { useCardStates, type CardStates } from "./card-states";
import { Admission } from "./admission";
import { groupOf, newest, waitingSince, worstGrade, type Group } from "./needs";
import { NeedLines } from "./needs-lines";
import { StageLine } from "./stage-line";
import { TakeIn } from "./take-in";
import { tell } from "./tell";

const GROUPS: readonly Group[] = ["handed-in", "walking", "signed"];

export function CardList() {
  const { services } = useBay();
  const states = useCardStates().value;
  if (states === null) return <p class="soft">{tell("loading")}</p>;
  if (states.size === 0) {
    const { problem } = services.sender.status.value;
    return (
      <div class="stack-wide">
        <p class="told plain">{tell(problem ? "no-cards-yet" : "no-cards")}</p>
        <TakeIn key="take-in" states={states} />
        <Admission key="admission" />
      </div>
    );
  }
  return (
    <div class="stack-wide">
      {GROUPS.map((group) => (
        <CardGroup key={group} group={group} cards={cardsOf(states, group)} />
      ))}
      <TakeIn key="take-in" states={states} />
      <Admission key="admission" />
    </div>
  );
}

/** The one that has waited longest comes first; elsewhere the newest. */
function cardsOf(states: CardStates, group: Group): CardState[] {
  const cards = [...states.values()].filter((state) => groupOf(state) === group);
  if (group === "handed-in") return cards.sort((a, b) => (waitingSince(a) < waitingSince(b) ? -1 : 1));
  return cards.sort((a, b) => (newest(a) < newest(b) ? 1 : -1));
}

function CardGroup({ group, cards }: { group: Group; cards: CardState[] }) {
  if (cards.length === 0 && group !== "handed-in") return null;
  return (
    <section aria-labelledby={`group-${group}`} class="stack">
      <h2 id={`group-${group}`} class="desk-group">
        {tell(`group-${group}`, { count: cards.length })}
      </h2>
      {cards.length === 0 ? <p class="soft">{tell("none-waiting")}</p> : null}
      <ul class="desk-cards">
        {cards.map((state) => (
          <CardRow key={state.card} state={state} />
        ))}
      </ul>
    </section>
  );
}

function CardRow({ state }: { state: CardState }) {
  const path = `/desk/${state.card}`;
  const worst = worstGrade(state);
  return (
    <li class="desk-card">
      <div>
        <h3 dir="auto">
          <a
            href={path}
            onClick={(event) => {
              event.preventDefault();
              go({ at: "desk", rest: path });
            }}
          >
            {vehicleName(state)}
          </a>
        </h3>
        <p class="soft">{odometerText(state)}</p>
      </div>
      <ul class="desk-complaints">
        {state.complaints.map((complaint) => (
          <li key={complaint.id} dir="auto">
            {tell("quote", { words: complaint.words })}
          </li>
        ))}
      </ul>
      <div>
        {worst ? <GradeMark grade={worst} /> : null}
        <p class={worst ? "" : "soft"}>{tell("findings-n", { count: state.findings.length })}</p>
      </div>
      <div>
        <StageLine state={state} />
        <NeedLines state={state} />
      </div>
    </li>
  );
}
