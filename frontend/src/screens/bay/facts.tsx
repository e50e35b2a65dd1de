/** The head of the card: the facts of the vehicle and of the visit, and the way to change them. */
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { go } from "../route";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { factText, odometerText } from "./vehicle";

export function Facts({ card, state }: { card: OpenCard; state: CardState }) {
  const rows: [string, string][] = [
    [say("vin"), factText(state, "vehicle/vin")],
    [say("year"), factText(state, "vehicle/year")],
    [say("odometer"), odometerText(state)],
    [say("modifications"), factText(state, "vehicle/modifications")],
    [say("planned-use"), factText(state, "card/planned-use")],
    [say("customer-name"), factText(state, "customer/name")],
  ];
  return (
    <section class="facts" aria-label={say("vehicle")}>
      <dl>
        {rows
          .filter(([, value]) => value !== "")
          .map(([name, value]) => (
            <div key={name} class={value.length > 14 ? "long" : ""}>
              <dt class="label">{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
      </dl>
      <Button look="quiet" onTap={() => go({ at: "book-in", card: card.id })}>
        {say("book-in-change")}
      </Button>
    </section>
  );
}
