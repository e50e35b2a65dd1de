/** How much room the browser leaves this app, looked at when the app starts and a card or the list of cards is shown. */
import { signal, type ReadonlySignal } from "@preact/signals";
import { askForRoom, lookAtRoom, type Manager, type Room } from "../store/persist";

export type RoomWatch = {
  /** null until it was looked at, and where the browser does not tell */
  left: ReadonlySignal<Room | null>;
  look: () => void;
  /** asks the browser once more to keep what is there */
  ask: () => void;
};

/** Asks the browser at once to keep what is there. */
export function watchRoom(storage: Manager | undefined): RoomWatch {
  const left = signal<Room | null>(null);
  // A browser that refuses to tell changes nothing.
  const take = (asked: Promise<Room>) =>
    void asked.then((room) => (left.value = room)).catch(() => undefined);
  const ask = () => take(askForRoom(storage));
  ask();
  return { left, look: () => take(lookAtRoom(storage)), ask };
}
