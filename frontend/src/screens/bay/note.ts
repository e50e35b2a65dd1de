/** The note at a check: a draft while it is typed, part of what stands at the check as soon as something does. */
import { useEffect } from "preact/hooks";
import type { Entry } from "../../journal/types";
import { useBay } from "./context";
import { asText, useDraft } from "./draft";
import { useKeeping, type OnLeaving } from "./keeping";
import type { OpenCard, Said } from "./open-card";
import { say } from "./say";
import { offerUndo } from "./undo";

export type Note = {
  text: string;
  /** whether an entry carries it just so */
  isKept: boolean;
  type: (text: string) => void;
  /** into what stands at the check; where nothing does, it waits for that */
  keep: () => void;
  /** what an entry made now is to carry; "" for none */
  words: () => string;
  /** an entry carries these words now */
  carried: (words: string) => void;
};

/** The key of the draft of a note. */
export function noteKey(card: string, slot: string): string {
  return `note/${card}/${slot}`;
}

export function useNote(card: OpenCard, slot: string, onLeaving: OnLeaving): Note {
  const { nowMs } = useBay();
  const [typed, setTyped, , latest] = useDraft(noteKey(card.id, slot), asText);
  const standing = () => card.state.peek()?.standing.get(slot) ?? [];
  const carried = (words: string) => setTyped((now) => (now?.trim() === words ? null : now));
  const keeping = useKeeping(
    () => latest()?.trim() ?? null,
    async (words) => {
      const kept = await card.amend(slot, (stood) => withNote(stood, words));
      if (noteIn(standing()) === words) carried(words);
      if (kept !== null && kept !== "unchanged") offerUndo(card, say("note-was-kept"), kept, nowMs());
    },
  );
  const keep = () => void keeping("leaving");
  useEffect(() => onLeaving(keep), []);
  const kept = noteIn(standing());
  const text = typed ?? kept ?? "";
  return {
    text,
    isKept: text !== "" && text.trim() === kept,
    type: setTyped,
    keep,
    words: () => latest()?.trim() ?? noteIn(standing()) ?? "",
    carried,
  };
}

/** The note of what stands; null where nothing or more than one thing does. */
function noteIn([entry, other]: readonly Entry[]): string | null {
  if (other) return null;
  if (entry?.kind === "answer") return entry.body.note ?? "";
  return entry?.kind === "not-checked" ? entry.body.words : null;
}

function withNote(stood: readonly Entry[], words: string): Said | null {
  const [entry] = stood;
  const note = noteIn(stood);
  if (note === null || note === words) return null;
  if (entry?.kind === "answer") return { kind: "answer", body: { ...entry.body, note: words } };
  // "other" is a reason by its words only
  if (entry?.kind !== "not-checked" || (entry.body.reason === "other" && words === "")) return null;
  return { kind: "not-checked", body: { ...entry.body, words } };
}
