/** "All of this station in order": one tap, one entry per check with the person behind it, one undo. */
import { useRef } from "preact/hooks";
import type { CardState, StepState } from "../../journal/types";
import { Button } from "../../ui/button";
import { useCautionsRead } from "./cautions";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { isTold, plainAnswers } from "./plain-checks";
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
  const { nowMs } = useBay();
  const [read] = useCautionsRead(card);
  const busy = useRef(false);
  const plain = plainAnswers(steps, round, (step) => isTold(state, read ?? [], step));
  if (plain.length < 2) return null;
  const keep = async () => {
    if (busy.current) return;
    busy.current = true;
    const where = here.value;
    const kept = await card.keepAnswers(plain);
    busy.current = false;
    const words = say("all-in-order-kept", { count: plain.length });
    if (!kept) return;
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
