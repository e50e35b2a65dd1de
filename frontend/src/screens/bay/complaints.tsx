/** Complaints in the customer's own words; several, each kept as it is left. */
import type { CardState, ComplaintState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { useSteady } from "../../ui/steady";
import { useState } from "preact/hooks";
import { asText, useDraft } from "./draft";
import type { OpenCard } from "./open-card";
import { say } from "./say";

type Props = { card: OpenCard; state: CardState };

export function Complaints({ card, state }: Props) {
  const part = useSteady<HTMLElement>();
  return (
    <section class="stack-wide form" ref={part}>
      <h2>{say("complaints")}</h2>
      {state.complaints.map((complaint, at) => (
        <Complaint key={complaint.id} card={card} complaint={complaint} number={at + 1} />
      ))}
      <NewComplaint card={card} number={state.complaints.length + 1} />
    </section>
  );
}

function Complaint({
  card,
  complaint,
  number,
}: {
  card: OpenCard;
  complaint: ComplaintState;
  number: number;
}) {
  const slot = `card/complaint/${complaint.id}`;
  const keep = (text: string) => {
    const words = text.trim();
    const standing = card.standing(slot);
    if (words === "" && standing) void card.takeBack(standing, null);
    else void card.keep("complaint", slot, { words });
  };
  return <Field label={say("complaint-n", { n: number })} value={complaint.words} lines onLeave={keep} />;
}

/** A blank line that becomes a complaint when it is left or added. */
function NewComplaint({ card, number }: { card: OpenCard; number: number }) {
  const [draft, setDraft] = useDraft(`${card.id}/card/complaint/new`, asText);
  const [round, setRound] = useState(0);
  const keep = async (text: string) => {
    const words = text.trim();
    if (words === "") return;
    setDraft(null);
    setRound(round + 1);
    const entry = await card.keep("complaint", `card/complaint/${card.newId()}`, { words });
    if (!entry) setDraft((now) => now ?? text);
  };
  return (
    <div class="stack">
      <Field
        key={round}
        label={say("complaint-n", { n: number })}
        hint={say("complaint-hint")}
        value={draft ?? ""}
        lines
        onType={setDraft}
        onLeave={(text) => void keep(text)}
      />
      <Button onTap={() => void keep(draft ?? "")}>{say("complaint-add")}</Button>
    </div>
  );
}
