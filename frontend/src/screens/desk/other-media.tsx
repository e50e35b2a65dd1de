/** Photos and sounds that no finding shows: taken on arrival, or of a check. */
import type { CardState } from "../../journal/types";
import { otherMedia } from "./evidence-of";
import { PhotoRow } from "./photos";
import { Sounds } from "./sounds";
import { tell } from "./tell";

export function OtherMedia({ state }: { state: CardState }) {
  const photos = otherMedia(state.photos, state);
  const sounds = otherMedia(state.sounds, state);
  if (photos.length + sounds.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="other-media">
      <h2 id="other-media">{tell("other-media")}</h2>
      <PhotoRow photos={photos} state={state} named />
      <Sounds sounds={sounds} state={state} />
    </section>
  );
}
