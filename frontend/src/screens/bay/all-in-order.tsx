/** "All of this station in order": one tap, one entry per check with the person behind it, one undo. */
import { useRef } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { useCautionsRead } from "./cautions";
import { useBay } from "./context";
import { asText, draftsWritten } from "./draft";
import { noteKey } from "./note";
import type { OpenCard } from "./open-card";
import { isTold, plainAnswers, type PlainAnswer } from "./plain-checks";
import { say } from "./say";
import { offerUndo } from "./undo";
import { here } from "../route";

type Props = {
  card: OpenCard;
  state: CardState;
  steps: readonly StepState[];
  round: number;
  station: string;
  onKept?: () => void;
};

/** Shown where at least two checks are left that it may answer; a single one has its own button already. */
export function AllInOrder({ card, state, steps, round, station, onKept }: Props) {
  const { nowMs, store } = useBay();
  const [read] = useCautionsRead(card);
  const busy = useRef(false);
  const plain = plainAnswers(steps, round, (step) => isTold(state, read ?? [], step));
  if (plain.length < 2) return null;
  const keep = async () => {
    if (busy.current) return;
    busy.current = true;
    const where = here.value;
    await draftsWritten();
    const kept = await card.keepAnswers(withNotes(card.id, plain, await store.drafts(noteKey(card.id, ""))));
    busy.current = false;
    const words = say("all-in-order-kept", { count: plain.length });
    if (!kept) return;
    for (const { entry } of kept)
      if (entry.kind === "answer" && entry.body.note)
        void store.keepDraft(noteKey(card.id, entry.slot), null);
    offerUndo(card, words, { kept, where }, nowMs());
    onKept?.();
  };
  return (
    <Button
      wide
      calm
      name={say("all-in-order-name", { count: plain.length, station })}
      onTap={() => void keep()}
    >
      {say("all-in-order", { count: plain.length })}
    </Button>
  );
}

/** A note that waits for the answer of its check goes with it. */
function withNotes(
  card: string,
  plain: readonly PlainAnswer[],
  notes: Partial<Record<string, unknown>>,
): PlainAnswer[] {
  return plain.map(({ slot, answer }) => {
    const note = asText(notes[noteKey(card, slot)])?.trim();
    return { slot, answer: note ? { ...answer, note } : answer };
  });
}
