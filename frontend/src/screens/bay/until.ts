/** Waits for a signal. */
import { effect, type ReadonlySignal } from "@preact/signals";

/** Resolves as soon as the signal's value is as asked. */
export function until<T>(signal: ReadonlySignal<T>, isSo: (value: T) => boolean): Promise<void> {
  return new Promise((resolve) => {
    let stop: (() => void) | null = null;
    let isOver = false;
    stop = effect(() => {
      if (isOver || !isSo(signal.value)) return;
      isOver = true;
      stop?.();
      resolve();
    });
    if (isOver) stop();
  });
}
