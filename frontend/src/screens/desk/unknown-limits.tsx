/** Limits of the maker's that nobody has typed for this vehicle; the foreman can do it here. */
import type { CardState } from "../../journal/types";
import type { OpenCard } from "../bay/open-card";
import { MakerAsk } from "../bay/maker";
import { stepName } from "./evidence-of";
import { unknownLimits } from "./needs";
import { tell } from "./tell";

export function UnknownLimits({ card, state }: { card: OpenCard; state: CardState }) {
  const limits = unknownLimits(state);
  if (limits.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="unknown-limits">
      <h2 id="unknown-limits">{tell("unknown-limits")}</h2>
      <p class="soft">{tell("unknown-limits-says")}</p>
      <ul class="desk-lines">
        {limits.map(({ key, ask, unit, steps }) => (
          <li key={key}>
            <div class="grow">
              <MakerAsk card={card} state={state} name={key} ask={ask} unit={unit} />
            </div>
            <p class="grow soft">{tell("recorded-only", { what: steps.map(stepName).join(", ") })}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
