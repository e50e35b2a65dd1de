/** A new version of the app: it waits in the background until the person says that now is a good moment. */
import { computed, signal, type ReadonlySignal } from "@preact/signals";

export type AppUpdate = {
  /** true when a new version is loaded and waits */
  ready: ReadonlySignal<boolean>;
  /** makes it take over and reloads the page; call it with no form open and nothing half typed */
  apply(): void;
};

const NEVER: AppUpdate = { ready: signal(false), apply: () => undefined };

/** Registers the service worker, where there is one, and watches for its successors. */
export function watchForUpdate(): AppUpdate {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return NEVER;
  const waiting = signal<ServiceWorker | null>(null);
  // A page that may not register (private window, odd certificate) still works with the network.
  register((worker) => (waiting.value = worker)).catch(() => undefined);
  return { ready: computed(() => waiting.value !== null), apply: () => takeOver(waiting.peek()) };
}

async function register(found: (worker: ServiceWorker) => void): Promise<void> {
  const worker = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
  const look = () => {
    // Without a controller this is the very first one, and there is nothing to replace.
    if (worker.waiting !== null && navigator.serviceWorker.controller !== null) found(worker.waiting);
  };
  look();
  worker.addEventListener("updatefound", () => worker.installing?.addEventListener("statechange", look));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void worker.update().catch(() => undefined);
  });
}

/** In a tab beside the one in which somebody said so, the new version has taken over already: only the page is old. */
function takeOver(worker: ServiceWorker | null): void {
  if (worker === null) return;
  if (worker.state !== "installed") return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  worker.postMessage({ take: "over" });
}
