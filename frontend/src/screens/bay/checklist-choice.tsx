/** Which checklists this card walks; choosing one pins its version. */
import { useEffect, useRef } from "preact/hooks";
import type { CardState } from "../../journal/types";
import type { Checklist } from "../../measure/book";
import { Tick } from "../../ui/choice";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { offerUndo } from "./undo";

type Props = { card: OpenCard; state: CardState; isWanted: boolean };

export function ChecklistChoice({ card, state, isWanted }: Props) {
  const { book, nowMs } = useBay();
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    if (isWanted) section.current?.scrollIntoView();
  }, [isWanted]);
  const chosen = new Set(state.checklists.map((one) => one.checklist.id));
  const tick = async (checklist: Checklist, on: boolean) => {
    const slot = `card/checklist/${checklist.id}`;
    const standing = card.standing(slot);
    if (!on && standing) {
      const entry = await card.takeBack(standing, null);
      if (entry) offerUndo(card, say("checklist-left-out"), { entry, before: standing }, nowMs());
    }
    if (on)
      await card.keep("checklist-chosen", slot, { version: checklist.version, sha256: checklist.sha256 });
  };
  return (
    <section class="stack form" ref={section}>
      <h2>{say("checklists")}</h2>
      {book.checklists.map((checklist) => (
        <Tick
          key={checklist.id}
          label={checklist.title}
          hint={hintOf(checklist, chosen.has(checklist.id), answersIn(state, checklist.id))}
          ticked={chosen.has(checklist.id)}
          onTick={(on) => void tick(checklist, on)}
        />
      ))}
      {state.missingChecklists.map((one) => (
        <p key={one.id} class="told">
          {say("checklist-missing", { id: one.id, version: one.version })}
        </p>
      ))}
    </section>
  );
}

/** A checklist left out by a slip says what it takes along; otherwise why it is done. */
function hintOf(checklist: Checklist, isChosen: boolean, answers: number): string {
  if (isChosen || answers === 0) return checklist.why;
  return say("checklist-answers", { count: answers });
}

function answersIn(state: CardState, id: string): number {
  const kinds = [...state.standing]
    .filter(([slot]) => slot.startsWith(`${id}/`))
    .flatMap(([, entries]) => entries.map((entry) => entry.kind));
  return kinds.filter((kind) => kind === "answer" || kind === "not-checked").length;
}
