/** How much room the browser says is used and free; and whether it promised not to clear it. */
import { useEffect } from "preact/hooks";
import { Button } from "../../ui/button";
import { useBay } from "./context";
import { say } from "./say";

/** Nothing where the browser does not tell. */
export function Room() {
  const { left, look, ask } = useBay().services.room;
  useEffect(look, []);
  const room = left.value;
  if (room === null || room.free_bytes === null) return null;
  const { used_bytes, free_bytes, persisted } = room;
  const mb = (bytes: number) => Math.round(bytes / 1_000_000);
  return (
    <section class="stack">
      <h2>{say("room")}</h2>
      <p>{say("room-says", { used: mb(used_bytes ?? 0), free: mb(free_bytes) })}</p>
      <p class="soft">{say(persisted ? "room-firm" : "room-loose")}</p>
      {persisted ? null : <Button onTap={ask}>{say("room-ask")}</Button>}
    </section>
  );
}
