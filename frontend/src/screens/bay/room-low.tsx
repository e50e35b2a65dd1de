/** What to do when the photos of a walk may not fit: said, with what helps at hand, and nothing is held up. */
import "./card-words";
import { useState } from "preact/hooks";
import { PHOTO_BYTES, WALK_PHOTOS, type Room } from "../../store/persist";
import { Button } from "../../ui/button";
import { useBay } from "./context";
import { say } from "./say";
import { counts } from "./shell";

type Props = { room: Room; onDismiss: () => void };

export function RoomLow({ room, onDismiss }: Props) {
  const { waiting } = useBay();
  const fits = Math.floor((room.free_bytes ?? 0) / PHOTO_BYTES);
  return (
    <section class="told stack" role="status">
      <h2>{say("room-low")}</h2>
      <p>{say("room-low-says", { n: fits, m: WALK_PHOTOS })}</p>
      <ul class="bullets">
        {counts(waiting.value).toSend > 0 ? <li>{say("room-low-send")}</li> : null}
        <li>{say("room-low-close")}</li>
        <li>{say("room-low-free")}</li>
      </ul>
      <LetGo />
      <Button onTap={onDismiss}>{say("room-low-seen")}</Button>
    </section>
  );
}

/** Drops the photos that the workshop holds, at once and for good. */
function LetGo() {
  const { store, services } = useBay();
  const [freed, setFreed] = useState<number | null>(null);
  const letGo = async () => {
    setFreed(await store.dropSentBlobs(Infinity));
    services.room.look();
  };
  if (freed === null) return <Button onTap={() => void letGo()}>{say("room-let-go")}</Button>;
  const words =
    freed === 0 ? say("room-freed-none") : say("room-freed", { mb: Math.ceil(freed / 1_000_000) });
  return <p class="soft">{words}</p>;
}
