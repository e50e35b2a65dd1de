/** What the screens work with: the store, the sender, the server's calls, a clock and a random source. */
import { signal, type ReadonlySignal } from "@preact/signals";
import { makeApi, type Api, type SignIn } from "../api/api";
import { listenForNews } from "../api/news";
import type { Result } from "../api/result";
import type { Wire } from "../api/wire";
import type { Book } from "../measure/book";
import { RANDOM_BYTES, uuid7 } from "../journal/uuid7";
import type { StoreFault } from "../store/errors";
import { channelToOtherTabs, openStore } from "../store/open";
import type { Me, Store, SyncStore, Waiting } from "../store/types";
import { browserLock, lockOnceLoaded, oneSender, untilKnown, type SenderDoor } from "./one-sender";
import { kept } from "./kept-signals";
import { browserConnection, linkOf, watchLink } from "./link";
import { cookieMarker } from "./marker";
import { watchLeaving, watchPage } from "./page";
import { watchRoom, type RoomWatch } from "./room";
import { recognise, signIn, signOut } from "./sign-in";
import type { Sender as SenderClass } from "./sender";
import { watchForUpdate, type AppUpdate } from "./update";

const PAUSE_MS = 5_000;
const LEISURE_MS = 500;

export type Services = {
  store: Store;
  sender: SenderDoor;
  api: Api;
  /** who is signed in; undefined until the store has been read, null when nobody is */
  me: ReadonlySignal<Me | null | undefined>;
  /** the trade knowledge; undefined until the store has been read, null until it first came in */
  book: ReadonlySignal<Book | null | undefined>;
  waiting: ReadonlySignal<Waiting>;
  /** set when the store could not be read or written for these; null when all is well */
  trouble: ReadonlySignal<StoreFault | null>;
  /** true when this browser kept work before and its store is empty now: somebody or the browser cleared it */
  cleared: ReadonlySignal<boolean>;
  room: RoomWatch;
  update: AppUpdate;
  /** milliseconds since 1970 */
  now: () => number;
  random: (count: number) => Uint8Array;
  newId: () => string;
  /** Signs in at the server and on this phone, and starts sending. */
  signIn(who: Omit<SignIn, "device">): Promise<Result<Me>>;
  /** Signs out here at once, at the server if it can be reached. Unsent work stays and waits. */
  signOut(): Promise<void>;
};

/** Opens the store and starts the sender. `language`: that of this phone, in which the checklists shall come. */
export function startServices(language: ReadonlySignal<string>): Services {
  const now = () => Date.now();
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
  const store = openStore({ now, pause, channel: channelToOtherTabs() });
  watchLeaving(window, store);
  const wire: Wire = (url, init) => fetch(url, init);
  const api = makeApi(wire, () => language.peek());
  const sender = startSender(store, api, now);
  language.subscribe(() => sender.tell({ is: "woke", why: "asked" }));
  const cleared = signal(false);
  const tools = { store, api, sender, marker: cookieMarker(document) };
  void recognise(tools, cleared);
  const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));
  return {
    store,
    sender,
    api,
    ...kept(store),
    cleared,
    room: watchRoom((navigator as Partial<Navigator>).storage),
    update: watchForUpdate(),
    now,
    random,
    newId: () => uuid7(now(), random(RANDOM_BYTES)),
    signIn: (who) => signIn(tools, who),
    signOut: () => signOut(tools),
  };
}

function startSender(store: SyncStore, api: Api, now: () => number): SenderDoor {
  const file = senderFile();
  const open = async () => {
    const Sender = await file;
    return new Sender({
      store,
      api,
      now,
      dice: () => Math.random(),
      timer: browserTimer,
      patience: browserTimer,
      link: () => linkOf(browserConnection()),
      listen: listenForNews,
    });
  };
  const tabs = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("baycard-sender");
  const door = oneSender(
    open,
    lockOnceLoaded(() => file, browserLock()),
    tabs,
    async () => ({
      is: "started",
      signed_in: (await untilKnown(() => store.me(), pauseAWhile)) !== null,
      visible: document.visibilityState === "visible",
    }),
  );
  store.watchWaiting(() => door.tell({ is: "woke", why: "entry" }));
  watchPage(document, window, (event) => door.tell(event));
  watchLink(browserConnection(), () => door.tell({ is: "woke", why: "link" }));
  return door;
}

/** Once the page has nothing better to do: its first screen is drawn then. */
function atLeisure(): Promise<void> {
  return new Promise((resolve) => {
    if ("requestIdleCallback" in window) requestIdleCallback(() => resolve(), { timeout: LEISURE_MS });
    else setTimeout(resolve, LEISURE_MS);
  });
}

/** Comes after the first screen. A file that cannot be fetched is asked for again: without it nothing is ever sent. */
async function senderFile(): Promise<typeof SenderClass> {
  await atLeisure();
  for (;;) {
    const file = await import("./sender").catch(() => null);
    if (file !== null) return file.Sender;
    await pauseAWhile();
  }
}

function pauseAWhile(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
}

function browserTimer(run: () => void, ms: number): () => void {
  const id = setTimeout(run, ms);
  return () => clearTimeout(id);
}
