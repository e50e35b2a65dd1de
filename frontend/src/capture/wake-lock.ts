/** Keeps the screen lit for a while, where the browser can. */

type Lock = { release(): Promise<void> };
type Lamp = { request(kind: "screen"): Promise<Lock> };

/** The browser's own way, or null; some phones have none, and some refuse it when the battery is low. */
export function wakeLamp(from: { wakeLock?: Lamp }): Lamp | null {
  return from.wakeLock ?? null;
}

/** Holds the screen awake until the returned function is called; asks again each time the page comes back. */
export function keepAwake(lamp: Lamp | null, page: Document): () => void {
  if (lamp === null) return () => undefined;
  let held: Lock | null = null;
  let isOver = false;
  const ask = async () => {
    if (isOver || page.visibilityState !== "visible") return;
    const lock = await lamp.request("screen").catch(() => null);
    void (isOver ? lock : held)?.release().catch(() => undefined);
    held = isOver ? null : lock;
  };
  const asked = () => void ask();
  page.addEventListener("visibilitychange", asked);
  asked();
  return () => {
    isOver = true;
    page.removeEventListener("visibilitychange", asked);
    void held?.release().catch(() => undefined);
  };
}
