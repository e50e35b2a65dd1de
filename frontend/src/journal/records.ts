/** What the outcomes of one checklist are read from: its standing answers, its facts, photos and sounds. */
import type { Book, Check, Checklist } from "../measure/book";
import { Units } from "../measure/units";
import { checkSlot, parseSlot } from "./slots";
import type { Answer, Entry, EntryOf, FactBody, Standing } from "./types";
import type { Worked } from "./worked";

export type Medium = EntryOf<"photo"> | EntryOf<"sound">;
export type Records = {
  standing: Standing;
  checklist: Checklist;
  book: Book;
  units: Units;
  checks: ReadonlyMap<string, Check>;
  /** check slot -> the photos and sounds about it */
  media: ReadonlyMap<string, readonly Medium[]>;
  /** the highest round in which anything stands for this checklist, at least 1 */
  top: number;
  /** worked-out answers found so far, by slot */
  worked: Map<string, Worked>;
};
export type Found = { answer: Answer; round: number };

/** What is the same for all checklists of a card, read once. */
export type CardRecords = {
  standing: Standing;
  media: ReadonlyMap<string, readonly Medium[]>;
  tops: ReadonlyMap<string, number>;
  /** checklist -> what stands in its slots, and the photos and sounds about them */
  basis: ReadonlyMap<string, readonly Entry[]>;
  /** what stands in the slots of facts, which any checklist may read */
  facts: readonly Entry[];
};
type Gathered = {
  media: Map<string, Medium[]>;
  tops: Map<string, number>;
  basis: Map<string, Entry[]>;
  facts: Entry[];
};

const unitsOfBook = new WeakMap<Book, Units>();
const readBefore = new WeakMap<Standing, CardRecords>();

/** The records of one checklist of a card. */
export function recordsOf(standing: Standing, checklist: Checklist, book: Book): Records {
  const { media, tops } = cardRecords(standing);
  return {
    standing,
    checklist,
    book,
    units: unitsOf(book),
    checks: new Map(checklist.checks.map((check) => [check.id, check])),
    media,
    top: tops.get(checklist.id) ?? 1,
    worked: new Map(),
  };
}

/** The photos, sounds and highest rounds of a card; worked out once for each standing. */
export function cardRecords(standing: Standing): CardRecords {
  const before = readBefore.get(standing);
  if (before) return before;
  const gathered: Gathered = { media: new Map(), tops: new Map(), basis: new Map(), facts: [] };
  for (const [slot, entries] of standing) {
    note(gathered, slot, entries);
    for (const entry of entries) if (entry.kind === "photo" || entry.kind === "sound") file(gathered, entry);
  }
  const read = { standing, ...gathered };
  readBefore.set(standing, read);
  return read;
}

/** The units of a book; the same object each time. */
export function unitsOf(book: Book): Units {
  const units = unitsOfBook.get(book) ?? new Units(book.units);
  unitsOfBook.set(book, units);
  return units;
}

function note({ tops, basis, facts }: Gathered, slot: string, entries: readonly Entry[]): void {
  const parsed = parseSlot(slot);
  if (parsed?.is === "fact" || parsed?.is === "maker") facts.push(...entries);
  if (parsed?.is !== "check") return;
  const { checklist, round } = parsed;
  tops.set(checklist, Math.max(round, tops.get(checklist) ?? 1));
  const before = basis.get(checklist);
  if (before) before.push(...entries);
  else basis.set(checklist, [...entries]);
}

function file(gathered: Gathered, entry: Medium): void {
  const slot = mediumSlot(entry);
  if (slot === null) return;
  gathered.media.set(slot, [...(gathered.media.get(slot) ?? []), entry]);
  note(gathered, slot, [entry]);
}

/** The check slot, round included, that a photo or sound is about; null when it is about something else. */
export function mediumSlot({ body }: Medium): string | null {
  if (body.about === null) return null;
  const whole = body.about.split("/").length === 3 ? `${body.about}/${body.round}` : body.about;
  return parseSlot(whole)?.is === "check" ? whole : null;
}

/** The answer of the highest round up to `round` that has one; null when none has, or there two disagree. */
export function answerUpTo(records: Records, check: string, position: string, round: number): Found | null {
  for (let at = Math.min(round, records.top); at >= 1; at--) {
    const entries = records.standing.get(checkSlot(records.checklist.id, check, position, at)) ?? [];
    const [entry] = entries;
    if (entries.length > 1) return null;
    if (entry?.kind === "answer") return { answer: entry.body, round: at };
  }
  return null;
}

/** The fact that alone stands in a slot; null when none does or two disagree. */
export function factIn(standing: Standing, slot: string): FactBody | null {
  const entries = standing.get(slot) ?? [];
  const [entry] = entries;
  return entries.length === 1 && entry?.kind === "fact" ? entry.body : null;
}

/** Where a check is read for a step at `position`: the same position if it is asked there, else its only one. */
export function positionOf(check: Check, position: string): string {
  const [first = position] = check.at;
  return check.at.length === 1 && !check.at.includes(position) ? first : position;
}
