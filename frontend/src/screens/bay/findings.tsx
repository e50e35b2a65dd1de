/** Findings of the card: what is proposed, what was accepted, and the way to one by hand. */
import type { CardState, Finding } from "../../journal/types";
import { Button } from "../../ui/button";
import { go } from "../route";
import { useCameFrom } from "./came-from";
import { useBegun } from "./begun";
import { useFindingDraft } from "./finding-draft";
import { useBay } from "./context";
import { GradeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { ProposalBox } from "./proposal";
import { say } from "./say";
import { Screen } from "./shell";
import { vehicleName } from "./vehicle";

type Props = { card: OpenCard; state: CardState };

export function Findings({ card, state }: Props) {
  const begun = useBegun(card, state, "finding");
  const byHand = () => begun((id) => go({ at: "finding", card: card.id, slot: `finding/${id}` }));
  return (
    <Screen
      title={say("findings")}
      kicker={vehicleName(state)}
      back={useCameFrom(card.id, { at: "card", card: card.id })}
      card={card}
      foot={
        <Button look="strong" wide onTap={byHand}>
          {say("finding-by-hand")}
        </Button>
      }
    >
      {state.proposals.map((proposal) => (
        <ProposalBox
          key={`${proposal.slot}/${proposal.round}`}
          card={card}
          state={state}
          proposal={proposal}
        />
      ))}
      <section class="stack">
        <h2>{say("findings-accepted", { n: state.findings.length })}</h2>
        {state.findings.map((finding) => (
          <FindingRow key={finding.slot} card={card} finding={finding} />
        ))}
      </section>
      {state.declined.length > 0 ? (
        <section class="stack">
          <h2>{say("findings-declined")}</h2>
          {state.declined.map((entry) => (
            <Button key={entry.id} wide onTap={() => go({ at: "finding", card: card.id, slot: entry.slot })}>
              <span class="grow row-name">
                {declinedName(state, entry.slot)} <span class="soft">{entry.body.words}</span>
              </span>
            </Button>
          ))}
        </section>
      ) : null}
    </Screen>
  );
}

/** What was declined: the check that had proposed it, and where. */
function declinedName(state: CardState, slot: string): string {
  const steps = state.checklists.flatMap((one) => one.steps);
  const found = steps.find(
    ({ step }) => slot === `finding/at/${step.checklist}/${step.check.id}/${step.place.id}`,
  );
  return found ? `${found.step.place.title} · ${found.step.check.ask}` : "";
}

export function FindingRow({ card, finding }: { card: OpenCard; finding: Finding }) {
  const { book } = useBay();
  const [changed] = useFindingDraft(card.id, finding.slot);
  const { title, grade, place } = finding.entry.body;
  const where = place ? book.places[place]?.title : undefined;
  return (
    <Button wide onTap={() => go({ at: "finding", card: card.id, slot: finding.slot })}>
      <span class="grow row-name">
        {title}
        {where ? <span class="soft"> · {where}</span> : null}
        {finding.standing.length > 1 ? <span class="label"> · {say("state-disagreement")}</span> : null}
        {changed ? <span class="label"> · {say("finding-changed")}</span> : null}
        {finding.work.length > 0 ? <span class="label"> · {say("finding-worked")}</span> : null}
      </span>
      <GradeMark grade={grade} />
    </Button>
  );
}
