/** One sender among all tabs: a Web Lock decides which; the others pass their events on and show its status. */
import { computed, signal, type ReadonlySignal } from "@preact/signals";
import { StoreError } from "../store/errors";
import type { Channel } from "../store/news";
import type { Sender } from "./sender";
import type { Event } from "./state";
import { NOTHING_KNOWN, type SyncStatus } from "./status";

/** Runs `work` while this tab holds the lock; resolves never, or when the tab gives it up. */
export type Lock = (work: () => Promise<void>) => void;
/** The sender as the rooms above see it. */
export type SenderDoor = {
  status: ReadonlySignal<SyncStatus>;
  tell(event: Event): void;
  stop(): void;
};

type Message = { event: Event } | { status: SyncStatus };

/** Opens the sender in the tab that gets the lock, and only there; `first` is asked for once that happens. */
export function oneSender(
  open: () => Promise<Sender>,
  lock: Lock,
  tabs: Channel | null,
  first: () => Promise<Event>,
): SenderDoor {
  const mine = signal<Sender | null>(null);
  const theirs = signal<SyncStatus | null>(null);
  const status = computed(() => mine.value?.status.value ?? theirs.value ?? NOTHING_KNOWN);
  /** what happened while the sender was being opened; null while another tab sends, and once it is open */
  let early: Event[] | null = null;
  let release: () => void = () => undefined;
  const hear = (event: Event) => {
    if (early !== null) early.push(event);
    else mine.peek()?.tell(event);
  };
  if (tabs !== null) {
    tabs.onmessage = ({ data }: MessageEvent<Message>) => {
      if ("status" in data) theirs.value = data.status;
      else hear(data.event);
    };
  }
  const untell = status.subscribe((present) => {
    if (mine.peek() !== null) tabs?.postMessage({ status: present } satisfies Message);
  });
  let stopped = false;
  lock(async () => {
    if (stopped) return;
    early = [];
    const sender = await open();
    if (stopped) return;
    sender.tell(await first());
    for (const event of early) sender.tell(event);
    early = null;
    mine.value = sender;
    await new Promise<void>((resolve) => (release = resolve));
  });
  return {
    status,
    tell: (event) => {
      if (early !== null || mine.peek() !== null) hear(event);
      else tabs?.postMessage({ event } satisfies Message);
    },
    stop: () => {
      stopped = true;
      untell();
      mine.peek()?.stop();
      tabs?.close();
      release();
    },
  };
}

/** The lock is asked for once `load` is through: a tab that cannot fetch its code must not keep the others from sending. */
export function lockOnceLoaded(load: () => Promise<unknown>, lock: Lock): Lock {
  return (work) => void load().then(() => lock(work));
}

/** Asks until the phone's store answers: without what it says the sender of this tab would never begin. */
export async function untilKnown<T>(ask: () => Promise<T>, pause: () => Promise<void>): Promise<T> {
  for (;;) {
    try {
      return await ask();
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      await pause();
    }
  }
}

/** The browser's own lock; without one every tab sends, which costs bytes and harms nothing. */
export function browserLock(): Lock {
  const locks = (navigator as Partial<Navigator>).locks;
  if (locks === undefined) return (work) => void work();
  return (work) => void locks.request("baycard-sender", work);
}
