/** A figure of the maker's that a limit or a formula asks for: typed once per vehicle, taken over on its later cards. */
import { useEffect, useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { formatDate, formatNumber } from "../../words/words";
import type { EarlierFigure } from "./earlier-figure";
import { numberOf, unitText } from "./figures";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { factText } from "./vehicle";

type Props = { card: OpenCard; state: CardState; name: string; ask: string; unit: string };

export function MakerAsk({ card, state, name, ask, unit }: Props) {
  const [wrong, setWrong] = useState(false);
  const slot = `vehicle/maker/${name}`;
  const keep = (text: string) => {
    const value = numberOf(text);
    setWrong(value === null && text.trim() !== "");
    if (value !== null) void card.keep("fact", slot, { value, unit });
  };
  return (
    <div class="stack">
      <Field
        label={ask}
        hint={say("maker-hint")}
        kind="decimal"
        value={factText(state, slot)}
        onLeave={keep}
        beside={<span class="field-unit">{unitText(unit)}</span>}
        told={wrong ? <p class="told">{say("not-a-number")}</p> : null}
      />
      {state.facts.has(slot) ? null : <Earlier card={card} slot={slot} vehicle={vehicleOf(state)} />}
    </div>
  );
}

function vehicleOf(state: CardState): string {
  return `${factText(state, "vehicle/vin")} ${factText(state, "vehicle/plate")}`;
}

/** What was typed on an earlier card of this vehicle: one tap takes it, and who taps has seen it. */
function Earlier({ card, slot, vehicle }: { card: OpenCard; slot: string; vehicle: string }) {
  const [figure, setFigure] = useState<EarlierFigure | null>(null);
  useEffect(() => {
    let gone = false;
    void card.earlierFigure(slot).then((found) => {
      if (!gone) setFigure(found);
    });
    return () => {
      gone = true;
    };
  }, [card, slot, vehicle]);
  if (!figure) return null;
  const { value, unit } = figure.fact;
  const what = `${typeof value === "number" ? formatNumber(value) : value} ${unitText(unit ?? "")}`;
  return (
    <Button wide onTap={() => void card.keep("fact", slot, figure.fact)}>
      {say("maker-earlier", { what: what.trim(), when: formatDate(figure.made_at) })}
    </Button>
  );
}
