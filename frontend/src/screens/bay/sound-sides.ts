/** Which sounds belong side by side: left and right of the same check, else as found and after work. */
import type { CardState, EntryOf, StepState } from "../../journal/types";
import { say } from "./say";
import type { Side } from "./sound-compare";
import { roundName } from "./vehicle";

/** The sounds about a check at a place in a round, oldest first; `about` may name the round or leave it to the body. */
export function soundsAt(state: CardState, at: string, round: number): EntryOf<"sound">[] {
  return state.sounds.filter(
    ({ body }) => body.about === `${at}/${round}` || (body.about === at && body.round === round),
  );
}

/** The last sound of each side, left first; [] while this place has none. */
export function sidesOf(state: CardState, step: StepState, round: number): Side[] {
  const { checklist, check, place } = step.step;
  const here = `${checklist}/${check.id}/${place.id}`;
  const own = soundsAt(state, here, round).at(-1);
  if (!own) return [];
  const other = place.pair && soundsAt(state, `${checklist}/${check.id}/${place.pair}`, round).at(-1);
  const mine: Side = { name: place.title, sound: own };
  if (other) {
    const theirs: Side = { name: pairTitle(state, step) ?? say("other-side"), sound: other };
    return place.side === "right" ? [theirs, mine] : [mine, theirs];
  }
  const before = round > 1 ? soundsAt(state, here, 1).at(-1) : undefined;
  if (!before) return [mine];
  return [
    { name: roundName(1), sound: before },
    { name: roundName(round), sound: own },
  ];
}

function pairTitle(state: CardState, { step }: StepState): string | null {
  const list = state.checklists.find((one) => one.checklist.id === step.checklist);
  return list?.steps.find((one) => one.step.place.id === step.place.pair)?.step.place.title ?? null;
}
