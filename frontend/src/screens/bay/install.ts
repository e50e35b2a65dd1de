/** Putting the app on the home screen: which phone this is, and the browser's own offer where it makes one. */
import { computed, signal, type ReadonlySignal } from "@preact/signals";

export type Platform =
  "ios" | "android-firefox" | "android" | "desktop-safari" | "desktop-firefox" | "desktop";
type Offer = Event & { prompt(): Promise<unknown> };

const held = signal<Offer | null>(null);
/** true while the browser offers to install the app by one tap */
export const canInstall: ReadonlySignal<boolean> = computed(() => held.value !== null);

/** Holds the browser's offer back until somebody asks for it here; gives the end of it. */
export function holdOffer(page: Window): () => void {
  const offered = (event: Event) => {
    event.preventDefault();
    held.value = event as Offer;
  };
  const taken = () => (held.value = null);
  page.addEventListener("beforeinstallprompt", offered);
  page.addEventListener("appinstalled", taken);
  return () => {
    page.removeEventListener("beforeinstallprompt", offered);
    page.removeEventListener("appinstalled", taken);
  };
}

/** Lets the browser ask the person now. Its offer can be used once. */
export function install(): void {
  void held.peek()?.prompt();
  held.value = null;
}

/** touchPoints: tablets of one maker call themselves desktops, but have fingers. */
export function platformOf(agent: string, touchPoints: number): Platform {
  if (/iPhone|iPad|iPod/.test(agent) || (agent.includes("Macintosh") && touchPoints > 1)) return "ios";
  if (agent.includes("Android")) return agent.includes("Firefox") ? "android-firefox" : "android";
  if (agent.includes("Firefox")) return "desktop-firefox";
  return agent.includes("Safari") && !agent.includes("Chrom") ? "desktop-safari" : "desktop";
}

/** Whether the app runs from the home screen already. */
export function isInstalled(page: Window): boolean {
  return (
    page.matchMedia("(display-mode: standalone)").matches ||
    Reflect.get(page.navigator, "standalone") === true
  );
}
