/** One card while it is on the screen: its entries, what they amount to, and how a tap adds to them. */
import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { cardState } from "../../journal/card";
import { newEntry } from "../../journal/entry";
import { judge, type Refusal } from "../../journal/judge";
import type { Answer, BodyOf, CardState, Entry, Kind } from "../../journal/types";
import { RANDOM_BYTES, uuid7 } from "../../journal/uuid7";
import type { Book, Checklist } from "../../measure/book";
import { StoreError, type StoreFault } from "../../store/errors";
import type { Route } from "../route";
import type { Bay } from "./context";
import { dayOf, startOf } from "./day-opened";
import { earlierFigures, type EarlierFigure } from "./earlier-figure";
import { toldIn } from "./told-finding";
import { placeOf, type Place } from "./walked-to";

/** An entry just kept, and what stood in its slot until then. */
export type Kept = { entry: Entry; before: Entry | null };

/** A kind of entry with a body of that kind. */
export type Said = { [K in Kind]: { kind: K; body: BodyOf<K> } }[Kind];

/** What the undo bar offers to take back. */
export type Undo = {
  words: string;
  kept: readonly Kept[];
  until: number;
  /** the screen it was kept on, shown again after the undo */
  where: Route | null;
  /** puts back what the undo would lose otherwise */
  again?: (() => void) | undefined;
};

export type OpenCard = {
  id: string;
  /** null until the phone's entries have been read */
  state: ReadonlySignal<CardState | null>;
  undo: Signal<Undo | null>;
  /** why the last entry could not be kept; null when it was */
  fault: Signal<StoreFault | null>;
  /** what is wrong with the last entry itself; null when nothing is */
  refusal: Signal<Refusal | null>;
  /** where its walk is, and where it was left */
  place: Place;
  newId: () => string;
  /** resolves with the entry after the phone has kept it for good, or null when it could not */
  keep: <K extends Kind>(kind: K, slot: string, body: BodyOf<K>) => Promise<Entry | null>;
  /**
   * Keeps what is made of the entries that stand in the slot when its turn comes (retractions left out); "unchanged" when
   * `say` finds nothing to keep, null when the phone could not.
   */
  amend: (slot: string, say: (stood: readonly Entry[]) => Said | null) => Promise<Kept | "unchanged" | null>;
  /** all of them or none, in one transaction; null when the phone could not */
  keepAnswers: (answers: readonly { slot: string; answer: Answer }[]) => Promise<Kept[] | null>;
  keepWithBlob: (
    kind: "photo" | "sound",
    slot: string,
    body: BodyOf<"photo"> | BodyOf<"sound">,
    bytes: ArrayBuffer,
  ) => Promise<Entry | null>;
  /** what stands in a slot now, a retraction left out; null when nothing does */
  standing: (slot: string) => Entry | null;
  /** the maker's figure of this slot as typed on an earlier card of the same vehicle */
  earlierFigure: (slot: string) => Promise<EarlierFigure | null>;
  /** puts back what stood before, or retracts when nothing did */
  takeBack: (entry: Entry, before: Entry | null) => Promise<Entry | null>;
  /** the same for many, all or none */
  takeAllBack: (kept: readonly Kept[]) => Promise<boolean>;
  close: () => void;
};

/** Reads the card and follows it; `close` ends the following. */
export function openCard(bay: Bay, id: string): OpenCard {
  const { entries, state, close } = follow(bay, id);
  const { fault, refusal, write } = writer(entries);
  const context = {
    card: id,
    author: bay.me.person.id,
    device: bay.me.device.id,
    nowMs: bay.nowMs,
    randomBytes: bay.randomBytes,
    clockOffMs: () => bay.services.sender.status.peek().clock_off_ms,
  };
  const standingIn = (slot: string) => state.peek()?.standing.get(slot) ?? [];
  const make = <K extends Kind>(kind: K, slot: string, body: BodyOf<K>, replaces: readonly Entry[]) =>
    // The compiler cannot tie K to the union's member; newEntry pairs kind and body itself.
    newEntry(
      kind,
      slot,
      body,
      replaces.map((entry) => entry.id),
      context,
    ) as Entry;
  const append = async (entry: Entry) => (await appendAll([entry])) && entry;
  const appendAll = (list: Entry[]) => {
    const all = [...list, ...dayOpened()];
    return write(all, () => bay.store.append(all));
  };
  /** What is kept first on a card brings its day along; an empty card stays none. */
  const dayOpened = () =>
    state.peek()?.entries.length === 0
      ? [make("fact", "card/opened", { value: dayOf(startOf(id)) }, [])]
      : [];
  /** All that the entry replaced stands again: where two disagreed before it, they do so once more. */
  const undone = ({ entry, before }: Kept): Entry[] => {
    if (before === null) return [make("retraction", entry.slot, {}, [entry])];
    const stood = (state.peek()?.entries ?? []).filter(
      (one) => entry.replaces.includes(one.id) && one.kind !== "retraction",
    );
    return (stood.length > 0 ? stood : [before]).map((one) => make(one.kind, entry.slot, one.body, [entry]));
  };
  const inTurn = turns();
  const standsIn = (slot: string) => standingIn(slot).find((entry) => entry.kind !== "retraction") ?? null;
  return {
    id,
    state,
    undo: signal(null),
    fault,
    refusal,
    close,
    place: placeOf(bay.store, id),
    newId: () => uuid7(bay.nowMs(), bay.randomBytes(RANDOM_BYTES)),
    keep: (kind, slot, body) => inTurn(() => append(make(kind, slot, body, standingIn(slot)))),
    amend: (slot, say) =>
      inTurn(async () => {
        const said = say(standingIn(slot).filter((one) => one.kind !== "retraction"));
        if (said === null) return "unchanged";
        const before = standsIn(slot);
        const entry = await append(make(said.kind, slot, said.body, standingIn(slot)));
        return entry && { entry, before };
      }),
    keepAnswers: (answers) =>
      inTurn(async () => {
        const kept = answers.map(({ slot, answer }) => ({
          entry: make("answer", slot, answer, standingIn(slot)),
          before: standsIn(slot),
        }));
        return (await appendAll(kept.map(({ entry }) => entry))) && kept;
      }),
    keepWithBlob: (kind, slot, body, bytes) =>
      inTurn(async () => {
        const entry = make(kind, slot, body, standingIn(slot));
        const blob = { sha256: body.blob, mime: body.mime, bytes };
        const others = dayOpened();
        return (
          (await write([entry, ...others], () => bay.store.appendWithBlob(entry, blob, others))) && entry
        );
      }),
    standing: standsIn,
    earlierFigure: earlierFigures(bay.store, id),
    takeBack: async (entry, before) => (await appendAll(undone({ entry, before })))?.[0] ?? null,
    takeAllBack: async (kept) => (await appendAll(kept.flatMap(undone))) !== null,
  };
}

/** One after another: an entry that is made while the one before is still being written must see it standing. */
function turns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  };
}

/** The card's entries as the store has them, in this tab and others, and what they amount to. */
function follow(bay: Bay, id: string) {
  const entries = signal<readonly Entry[] | null>(null);
  const older = signal<Checklist[]>([]);
  const state = computed(() =>
    entries.value ? toldIn(bay.book, cardState([...entries.value], withOlder(bay.book, older.value))) : null,
  );
  const read = async () => {
    const found = await bay.store.entriesOf(id);
    older.value = await olderChecklists(bay, found);
    entries.value = merged(found, entries.value ?? []);
  };
  const close = bay.store.watch((card, made) => {
    if (card !== id) return;
    // What a tap added is known already: reading hundreds of entries again would hold up the next tap.
    const known = entries.peek();
    if (made === null || known === null) void read();
    else entries.value = merged(made, known);
  });
  void read();
  return { entries, state, close };
}

/** Judges the entries, writes them all or none, and only then shows them; says why when it could not. */
function writer(entries: Signal<readonly Entry[] | null>) {
  const fault = signal<StoreFault | null>(null);
  const refusal = signal<Refusal | null>(null);
  const write = async (list: Entry[], into: () => Promise<void>) => {
    refusal.value = list.map((entry) => judge(entry)).find((refused) => refused !== null) ?? null;
    if (refusal.value) return null;
    try {
      await into();
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      fault.value = error.fault;
      return null;
    }
    fault.value = null;
    entries.value = merged(list, entries.peek() ?? []);
    return list;
  };
  return { fault, refusal, write };
}

/** Union by id; entries never change, so the first copy is as good as any. */
export function merged(found: readonly Entry[], known: readonly Entry[]): readonly Entry[] {
  const seen = new Set(known.map((entry) => entry.id));
  const fresh = found.filter((entry) => !seen.has(entry.id));
  return fresh.length === 0 ? known : [...known, ...fresh];
}

function withOlder(book: Book, older: Checklist[]): Book {
  return older.length === 0 ? book : { ...book, checklists: [...book.checklists, ...older] };
}

/** The versions this card was pinned to that the present book no longer carries. */
async function olderChecklists(bay: Bay, entries: readonly Entry[]): Promise<Checklist[]> {
  const held = new Set(bay.book.checklists.map((one) => `${one.id}/${one.version}`));
  const wanted = new Map<string, { id: string; version: number }>();
  for (const entry of entries) {
    if (entry.kind !== "checklist-chosen") continue;
    const id = entry.slot.split("/")[2] ?? "";
    const key = `${id}/${entry.body.version}`;
    if (!held.has(key)) wanted.set(key, { id, version: entry.body.version });
  }
  const found = await Promise.all(
    [...wanted.values()].map(({ id, version }) => bay.store.checklist(id, version)),
  );
  return found.filter((one) => one !== null);
}
