/** Photo, note and "could not check", in one row under the answer. */
import { useState } from "preact/hooks";
import type { CardState, StepOutcome, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { useBay } from "./context";
import type { Note } from "./note";
import type { OpenCard } from "./open-card";
import { asFoundOf, photosOf, Thumbs } from "./photos";
import { say } from "./say";
import { roundName } from "./vehicle";
import { offerUndo } from "./undo";
import { outcomeIn } from "./walk-order";

type Props = {
  card: OpenCard;
  state: CardState;
  step: StepState;
  round: number;
  note: Note;
  skipping: boolean;
  onSkip: () => void;
};

export function Evidence({ card, state, step, round, note, skipping, onSkip }: Props) {
  const [noting, setNoting] = useState(false);
  const outcome = outcomeIn(step, round);
  const { check } = step.step;
  const isPhoto = check.answer.kind === "photo";
  const photos = photosOf(state, outcome.slot);
  const before = asFoundOf(state, outcome.slot);
  const takesNote = !["photo", "sound", "worked-out"].includes(check.answer.kind);
  return (
    <div class="evidence stack">
      {check.photo && photos.length === 0 && !isPhoto ? (
        <p class="label">{say(`photo-${check.photo}`)}</p>
      ) : null}
      {before.length > 0 ? (
        <div class="stack">
          <p class="label">{say("as-found")}</p>
          <Thumbs card={card} photos={before} />
          {photos.length > 0 && !isPhoto ? <p class="label">{roundName(round)}</p> : null}
        </div>
      ) : null}
      {isPhoto ? null : <Thumbs card={card} photos={photos} />}
      {noting ? (
        <Field
          label={say("note-words")}
          hint={outcome.standing.length === 0 ? say("note-waits") : undefined}
          value={note.text}
          lines
          onType={note.type}
          onLeave={note.keep}
        />
      ) : null}
      <div class="evidence-acts">
        {takesNote ? (
          <Button pressed={noting} onTap={() => setNoting(!noting)}>
            {say(note.isKept ? "note-kept" : note.text === "" ? "note" : "note-half")}
          </Button>
        ) : null}
        {check.answer.kind === "worked-out" ? null : (
          <Button pressed={skipping} onTap={onSkip}>
            {say("could-not-check")}
          </Button>
        )}
      </div>
      <TakeBack card={card} outcome={outcome} />
    </div>
  );
}

/** An answer given at the wrong place is no reading at all: it can be taken back long after the offer to undo is gone. */
function TakeBack({ card, outcome }: { card: OpenCard; outcome: StepOutcome }) {
  const { nowMs } = useBay();
  const [before, other] = outcome.standing;
  if (!before || other || before.kind === "retraction") return null;
  const takeBack = async () => {
    const entry = await card.takeBack(before, null);
    if (entry) offerUndo(card, say("answer-taken-back"), { entry, before }, nowMs());
  };
  return (
    <Button look="quiet" calm onTap={() => void takeBack()}>
      {say("answer-take-back")}
    </Button>
  );
}
