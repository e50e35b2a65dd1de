/** Photo, note and "could not check", in one row under the answer. */
import { useState } from "preact/hooks";
import type { CardState, StepOutcome, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { answerOf } from "./answers/answer";
import { useBay } from "./context";
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
  note: string;
  onNote: (note: string) => void;
  skipping: boolean;
  onSkip: () => void;
};

export function Evidence({ card, state, step, round, note, onNote, skipping, onSkip }: Props) {
  const [noting, setNoting] = useState(false);
  const outcome = outcomeIn(step, round);
  const answer = answerOf(outcome);
  const { check } = step.step;
  const isPhoto = check.answer.kind === "photo";
  const photos = photosOf(state, outcome.slot);
  const before = asFoundOf(state, outcome.slot);
  const takesNote = !["photo", "sound", "worked-out"].includes(check.answer.kind);
  const keepNote = (text: string) => {
    if (answer) void card.keep("answer", outcome.slot, { ...answer, note: text });
    else onNote(text);
  };
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
        <Field label={say("note-words")} value={note} lines onLeave={(text) => keepNote(text.trim())} />
      ) : null}
      <div class="evidence-acts">
        {takesNote ? (
          <Button pressed={noting} onTap={() => setNoting(!noting)}>
            {say(note ? "note-kept" : "note")}
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
