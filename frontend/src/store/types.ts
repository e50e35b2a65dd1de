/** What the phone's store promises to the rooms above it. `open.ts` makes one over IndexedDB. */
import type { Book, Checklist } from "../measure/book";
import type { Entry } from "../journal/types";

export type Me = {
  person: { id: string; name: string; role: "technician" | "foreman" | "owner" };
  device: { id: string; name: string };
  /** `plate_forms` is absent when this was kept by an earlier version */
  workshop: { id: string; name: string; units: "metric" | "us"; plate_forms?: string[] };
};
export type Server = { instance: string; epoch: number };
export type OutboxLine = {
  id: string;
  card: string;
  author: string;
  kept_at: number;
  state: "waiting" | "refused";
  reason: { code: string; title: string; do: string } | null;
};
export type BlobLine = {
  sha256: string;
  card: string;
  mime: string;
  bytes: number;
  kept_at: number;
  state: "waiting" | "sent" | "refused";
  /** when the server confirmed it, ms since 1970; older lines do not say */
  sent_at?: number;
  held: number;
  reason: { code: string; title: string; do: string } | null;
};
export type Waiting = { entries: OutboxLine[]; blobs: BlobLine[] };
export type Reason = { code: string; title: string; do: string };
/** An entry as the server hands it out, with its place in the server's order of arrival. */
export type PulledEntry = Entry & { arrival: number };
export type ChecklistName = { id: string; version: number };
/** When photos and sounds may be sent: whatever the link, only over one that is neither mobile nor slow, or when told to. */
export const PHOTO_CHOICES = ["always", "good-link", "asked"] as const;
export type PhotoChoice = (typeof PHOTO_CHOICES)[number];
/** Of the waiting entries all but these, or these only and in this order. */
export type Choice = { but: string[] } | { only: string[] };
/** What the sender has before it. */
export type Queue = {
  /** lines still waiting, refused ones not counted; their ids, oldest first */
  entries: number;
  entry_ids: string[];
  blobs: number;
  refused: number;
  /** when the oldest waiting entry or photo was kept, ms since 1970 */
  oldest: number | null;
  /** the oldest photo or sound that waits, and those behind it */
  blob: BlobLine | null;
  later_blobs: BlobLine[];
  /** cards whose entries are to be compared with the server's */
  compare: string[];
  /** checklist versions that cards here name and this phone lacks */
  wanted: ChecklistName[];
  /** what was chosen on this phone */
  photos: PhotoChoice;
  /** photos and sounds that are sent, whether their bytes are still here or not */
  sent: number;
};

/** Every promise resolves only after its transaction is complete; `append` and `appendWithBlob` use strict durability. */
export type Store = {
  append(entries: Entry[]): Promise<void>;
  /** the blob is of `entry`; `others` are entries of the same card */
  appendWithBlob(
    entry: Entry,
    blob: { sha256: string; mime: string; bytes: ArrayBuffer },
    others?: readonly Entry[],
  ): Promise<void>;
  cards(): Promise<string[]>;
  entriesOf(card: string): Promise<Entry[]>;
  /** calls back whenever a card's entries changed, in this tab or another */
  watch(listener: CardListener): () => void;

  waiting(): Promise<Waiting>;
  watchWaiting(listener: () => void): () => void;
  /** lets what the server refused go to it once more, after the cause was put right there */
  offerRefused(): Promise<void>;
  blob(sha256: string): Promise<{ mime: string; bytes: ArrayBuffer } | null>;

  /** the server this phone last met; null when it never met one */
  server(): Promise<Server | null>;
  me(): Promise<Me | null>;
  keepMe(me: Me): Promise<void>;
  forgetMe(): Promise<void>;
  /** another workshop uses this phone now: drops what was fetched for the one before, never what was made here */
  leaveWorkshop(): Promise<void>;
  book(): Promise<Book | null>;
  keepBook(book: Book): Promise<void>;
  checklist(id: string, version: number): Promise<Checklist | null>;
  keepChecklist(checklist: Checklist): Promise<void>;
  draft(slot: string): Promise<unknown>;
  /** those whose slot begins with `under`, by slot */
  drafts(under: string): Promise<Record<string, unknown>>;
  keepDraft(slot: string, value: unknown): Promise<void>;
  setting(name: string): Promise<unknown>;
  keepSetting(name: string, value: unknown): Promise<void>;
  /** calls back when another person signed in or out, or another book came in */
  watchKept(listener: (what: Kept) => void): () => void;
  /** drops the bytes of blobs that were sent before this time; gives the number of bytes freed */
  dropSentBlobs(sentBefore: number): Promise<number>;
};

/** Hears the card's id, and the entries that came to it; null when it has to read the card to know. */
export type CardListener = (card: string, made: readonly Entry[] | null) => void;

export type Kept = "me" | "book" | "checklist";

/** The side of the store that only the sender uses. */
export type SyncStore = Store & {
  queue(): Promise<Queue>;
  /** the oldest waiting entries, in the order they were made; of some of them only where there is a choice */
  batch(limit: number, choice?: Choice): Promise<Entry[]>;
  /** takes out what the server named as kept and marks what it refused; the rest goes on waiting */
  settle(kept: string[], refused: { id: string; reason: Reason }[]): Promise<void>;
  cursor(): Promise<number>;
  /** a page and the cursor behind it, in one transaction; the cursor moves only if it still stands at `after` */
  keepPage(entries: PulledEntry[], cursor: number, after?: number): Promise<void>;
  /** the first server, or another one, or a restored one: pull from the start, compare every card made here */
  meetServer(server: Server): Promise<void>;
  /** starts pulling from the beginning again */
  pullAgain(): Promise<void>;
  /** ids that should be at the server: all of the card but those waiting or refused */
  settledIds(card: string): Promise<string[]>;
  /** puts everything made here for this card back in the outbox */
  offerAgain(card: string): Promise<void>;
  /** sends these blobs anew, as far as their bytes are still here */
  offerBlobsAgain(lackingBlobs: string[]): Promise<void>;
  compared(card: string): Promise<void>;
  checklistSought(name: ChecklistName): Promise<void>;
  /** the entry that mentions this photo or sound */
  entryOfBlob(line: BlobLine): Promise<Entry | null>;
  blobHeld(sha256: string, held: number): Promise<void>;
  blobSent(sha256: string): Promise<void>;
  blobRefused(sha256: string, reason: Reason): Promise<void>;
  /** the blobs sent before this time whose bytes are still here */
  sentBlobs(sentBefore: number): Promise<BlobLine[]>;
  /** drops the bytes of those of them that are sent; gives the number of bytes freed */
  dropBlobs(names: string[]): Promise<number>;
  close(): void;
  /** the page is left, perhaps for good: nothing is begun until `wake` */
  rest(): void;
  wake(): void;
};
