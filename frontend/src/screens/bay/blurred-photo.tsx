/** "This picture looks blurred": asked once, at the foot of the screen, while everything else goes on. */
import { useState } from "preact/hooks";
import type { EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { blurredOf } from "./blurred";
import type { OpenCard } from "./open-card";
import { Retake } from "./photo-view";
import { Picture } from "./photos";
import { say } from "./say";

type Props = { card: OpenCard; photo: EntryOf<"photo"> };

export function BlurredPhoto({ card, photo }: Props) {
  const [retaking, setRetaking] = useState(false);
  const stands = card.state.value?.photos.some((one) => one.id === photo.id) ?? false;
  const answered = () => {
    if (blurredOf(card).peek()?.id === photo.id) blurredOf(card).value = null;
  };
  if (!stands) return null;
  if (retaking) return <Retake card={card} photo={photo} onClose={answered} />;
  return (
    <section class="told blurred" role="status">
      <Picture photo={photo} name={say("blurred-picture")} />
      <p>{say("blurred-says")}</p>
      <div class="pair">
        <Button onTap={answered}>{say("blurred-keep")}</Button>
        <Button onTap={() => setRetaking(true)}>{say("photo-retake")}</Button>
      </div>
    </section>
  );
}
