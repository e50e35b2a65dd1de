/** Warns, before a walk begins, that its photos may not fit on this phone. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { isTooLittleForAWalk } from "../../store/persist";
import { lazily } from "../../ui/lazily";
import { useBay } from "./context";

const RoomLow = lazily(() => import("./room-low").then((file) => file.RoomLow));

/** Until the app is opened the next time. */
const dismissed = signal(false);

export function RoomNotice() {
  const { services } = useBay();
  const { left, look } = services.room;
  useEffect(look, []);
  const room = left.value;
  if (dismissed.value || room === null || !isTooLittleForAWalk(room)) return null;
  return <RoomLow room={room} onDismiss={() => (dismissed.value = true)} />;
}
