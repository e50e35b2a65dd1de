/** What a card still asks, said in a few words: in one line in the list, as links to the places on the card itself. */
import type { CardState } from "../../journal/types";
import { needsOf, type Need } from "./needs";
import { tell } from "./tell";

/** Where on the card page a need is met. */
const PLACE: Record<Need, string> = {
  disagreements: "to-settle",
  proposals: "to-settle",
  tooClose: "to-settle",
  open: "still-open",
  complaints: "complaints",
  photos: "sign-off",
};

type Props = { state: CardState; photosWaiting?: number; linked?: boolean };

/** Nothing is said of what is in order. */
export function NeedLines({ state, photosWaiting = 0, linked = false }: Props) {
  const needs = needsOf(state, photosWaiting);
  const names = (Object.keys(needs) as Need[]).filter((need) => needs[need] > 0);
  if (names.length === 0) return <p class="soft">{tell("needs-nothing")}</p>;
  return (
    <ul class="desk-needs">
      {names.map((need) => {
        const words = tell(`need-${need}`, { count: needs[need] });
        return <li key={need}>{linked ? <a href={`#${PLACE[need]}`}>{words}</a> : words}</li>;
      })}
    </ul>
  );
}
