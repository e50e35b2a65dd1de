/** A finding that a limit or an option proposes: accept, change or decline. The person decides. */
import { useState } from "preact/hooks";
import type { CardState, FindingBody, Proposal } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { go } from "../route";
import { useFindingDraft } from "./finding-draft";
import { useBay } from "./context";
import { asText, useDraft } from "./draft";
import { becauseText } from "./figures";
import { GradeMark } from "./marks";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { toldBody } from "./told-finding";
import { offerUndo } from "./undo";

type Props = { card: OpenCard; state: CardState; proposal: Proposal };

/** The body of a finding as proposed, with the photos already taken of the check. */
export function proposedBody(proposal: Proposal, state: CardState): FindingBody {
  const { step, outcome } = proposal;
  const grade = outcome.grade ?? "advice";
  const title = outcome.title ?? step.check.ask;
  const about = `${step.checklist}/${step.check.id}/${step.place.id}`;
  return {
    title,
    plain: outcome.plain ?? step.check.plain,
    grade,
    about,
    place: step.place.id,
    complaints: [],
    photos: state.photos
      .filter((photo) => photo.body.about?.startsWith(`${about}/`))
      .map((photo) => idOf(photo.slot)),
    proposed: outcome.because === null ? null : { grade, title, limit: outcome.because },
    note: "",
  };
}

/** The uuid at the end of a slot. */
export function idOf(slot: string): string {
  return slot.split("/").at(-1) ?? "";
}

export function ProposalBox({ card, state, proposal }: Props) {
  const { book, nowMs } = useBay();
  const [declining, setDeclining] = useState(false);
  const { outcome, step, slot } = proposal;
  const [written, setDraft] = useFindingDraft(card.id, slot);
  // what was changed of another proposal, before the reading was, is not what is accepted here
  const draft = written?.proposed?.limit === outcome.because ? written : null;
  const body = toldBody(book, state, draft ?? proposedBody(proposal, state));
  const accept = async () => {
    const before = card.standing(slot);
    const entry = await card.keep("finding", slot, { ...body, title: body.title.trim() });
    if (!entry) return;
    if (draft) setDraft(null);
    offerUndo(card, say("finding-accepted"), { entry, before }, nowMs());
  };
  return (
    <section
      class="proposal stack"
      aria-label={`${say("proposed-finding")}: ${body.title}, ${step.place.title}`}
    >
      <p class="label">{say(draft ? "finding-changed" : "proposed-finding")}</p>
      <h2>
        <GradeMark grade={body.grade} />
        <span>
          {body.title}, {step.place.title}
        </span>
      </h2>
      <p>{say("proposed-because", { what: becauseText(outcome, step.check.answer) })}</p>
      {declining ? (
        <Decline card={card} slot={slot} onClose={() => setDeclining(false)} />
      ) : (
        <div class="proposal-acts">
          <Button look="strong" calm disabled={body.title.trim() === ""} onTap={() => void accept()}>
            {say("accept")}
          </Button>
          <Button onTap={() => go({ at: "finding", card: card.id, slot })}>{say("change")}</Button>
          <Button onTap={() => setDeclining(true)}>{say("decline")}</Button>
        </div>
      )}
    </section>
  );
}

function Decline({ card, slot, onClose }: { card: OpenCard; slot: string; onClose: () => void }) {
  const { nowMs } = useBay();
  const [typed, setWords] = useDraft(`${card.id}/${slot}/declined`, asText);
  const words = typed ?? "";
  const decline = async () => {
    const before = card.standing(slot);
    const entry = await card.keep("finding-declined", slot, { words: words.trim() });
    if (!entry) return;
    setWords(null);
    offerUndo(card, say("finding-declined"), { entry, before }, nowMs());
  };
  return (
    <div class="stack">
      <Field label={say("decline-why")} value={words} onType={setWords} lines />
      <div class="proposal-acts">
        <Button look="strong" calm disabled={words.trim() === ""} onTap={() => void decline()}>
          {say("decline-keep")}
        </Button>
        <Button onTap={onClose}>{say("back")}</Button>
      </div>
    </div>
  );
}
