/** Makes the phone's store over IndexedDB. */
import * as entries from "./entries";
import { Handle, type Pause } from "./handle";
import * as kept from "./kept";
import { META } from "./meta";
import { News, type Channel } from "./news";
import * as outbox from "./outbox";
import * as pulled from "./pulled";
import { keepFetched, keepLarge, keepSmall } from "./room";
import type { BlobLine, SyncStore } from "./types";

export type Outside = { now: () => number; pause: Pause; channel: Channel | null; name?: string };

/** The store; the database itself is opened at the first use. */
export function openStore(outside: Outside): SyncStore {
  const { now, pause, channel, name } = outside;
  const context = { handle: new Handle(pause, name), news: new News(channel), now };
  return {
    ...forScreens(context),
    ...forSender(context),
    rest: () => context.handle.rest(),
    wake: () => context.handle.wake(),
    close: () => closeAll(context),
  };
}

/** A channel to the other tabs, where the browser has one. */
export function channelToOtherTabs(): Channel | null {
  return typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("baycard-store");
}

type ScreenSide = Omit<SyncStore, keyof ReturnType<typeof forSender> | "close" | "rest" | "wake">;

function forScreens(context: entries.Context): ScreenSide {
  const { news } = context;
  return {
    append: (made) => keepSmall(context, () => entries.append(context, made)),
    appendWithBlob: (entry, blob, others) =>
      keepLarge(context, () => entries.appendWithBlob(context, entry, blob, others)),
    cards: () => entries.cards(context),
    entriesOf: (card) => entries.entriesOf(context, card),
    watch: (listener) => news.watchCards(listener),
    waiting: () => outbox.waiting(context),
    watchWaiting: (listener) => news.watchWaiting(listener),
    offerRefused: () => keepSmall(context, () => outbox.offerRefused(context)),
    blob: (sha256) => entries.blobOf(context, sha256),
    me: () => kept.me(context),
    keepMe: (me) => keepSmall(context, () => kept.keepMe(context, me)),
    forgetMe: () => kept.forgetMe(context),
    leaveWorkshop: () => keepSmall(context, () => pulled.leaveWorkshop(context)),
    book: () => kept.book(context),
    keepBook: (book) => keepFetched(context, () => kept.keepBook(context, book)),
    checklist: (id, version) => kept.checklist(context, id, version),
    keepChecklist: (checklist) => keepFetched(context, () => kept.keepChecklist(context, checklist)),
    draft: (slot) => kept.draft(context, slot),
    drafts: (under) => kept.drafts(context, under),
    keepDraft: (slot, value) => keepSmall(context, () => kept.keepDraft(context, slot, value)),
    setting: (name) => kept.setting(context, name),
    keepSetting: (name, value) => keepSmall(context, () => kept.keepSetting(context, name, value)),
    watchKept: (listener) => news.watchKept(listener),
    dropSentBlobs: (sentBefore) => outbox.dropSentBlobs(context, sentBefore),
  };
}

function forSender(context: entries.Context) {
  return {
    queue: () => outbox.queue(context),
    entryOfBlob: (line: BlobLine) => entries.entryOfBlob(context, line),
    batch: (...asked: Parameters<SyncStore["batch"]>) => outbox.batch(context, ...asked),
    settle: (...named: Parameters<SyncStore["settle"]>) =>
      keepSmall(context, () => outbox.settle(context, ...named)),
    cursor: () => pulled.cursor(context),
    server: () => pulled.server(context),
    keepPage: (...page: Parameters<SyncStore["keepPage"]>) =>
      keepFetched(context, () => pulled.keepPage(context, ...page)),
    meetServer: (...met: Parameters<SyncStore["meetServer"]>) =>
      keepSmall(context, () => pulled.meetServer(context, ...met)),
    pullAgain: () => keepSmall(context, () => pulled.pullAgain(context)),
    settledIds: (card: string) => pulled.settledIds(context, card),
    offerAgain: (card: string) => keepSmall(context, () => outbox.offerAgain(context, card)),
    offerBlobsAgain: (lacking: string[]) =>
      keepSmall(context, () => outbox.offerBlobsAgain(context, lacking)),
    compared: (card: string) =>
      keepSmall(context, () => pulled.takeFromList(context, META.compare, (one) => one === card)),
    checklistSought: (...name: Parameters<SyncStore["checklistSought"]>) => checklistSought(context, ...name),
    blobHeld: (sha256: string, held: number) => changeBlobLine(context, sha256, { held }),
    blobSent: (sha256: string) =>
      changeBlobLine(context, sha256, { state: "sent", sent_at: context.now(), reason: null }),
    blobRefused: (...[sha256, reason]: Parameters<SyncStore["blobRefused"]>) =>
      changeBlobLine(context, sha256, { state: "refused", reason }),
    sentBlobs: (sentBefore: number) => outbox.sentBlobs(context, sentBefore),
    dropBlobs: (names: string[]) => outbox.dropBlobs(context, names),
  };
}

/** On a full phone the line that says "sent" must still go in: only then may the bytes go. */
function changeBlobLine(
  context: entries.Context,
  ...change: [sha256: string, difference: Partial<BlobLine>]
): Promise<void> {
  return keepSmall(context, () => outbox.changeBlobLine(context, ...change));
}

function checklistSought(
  context: entries.Context,
  { id, version }: { id: string; version: number },
): Promise<void> {
  const wanted = JSON.stringify({ id, version });
  const isIt = (one: unknown) => JSON.stringify(one) === wanted;
  return keepSmall(context, () => pulled.takeFromList(context, META.wanted, isIt));
}

function closeAll({ handle, news }: entries.Context): void {
  handle.drop();
  news.close();
}
