/** A check that is answered by photos. */
import type { AnswerSpec } from "../../../measure/book";
import { PhotoButton, photosOf, Thumbs } from "../photos";
import { say } from "../say";
import type { AnswerProps } from "./answer";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "photo" }> };

export function PhotoAnswer({ card, state, outcome, round, spec, onKept }: Props) {
  const photos = photosOf(state, outcome.slot);
  return (
    <div class="stack">
      <p class="label">{say("photos-n-of-m", { n: photos.length, m: spec.least })}</p>
      <Thumbs card={card} photos={photos} />
      <PhotoButton
        card={card}
        about={outcome.slot}
        round={round}
        strong
        onKept={(entry) => {
          if (photos.length + 1 >= spec.least) onKept(entry, null);
        }}
      />
    </div>
  );
}
