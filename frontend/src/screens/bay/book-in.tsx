/** Booking in: vehicle, complaints in the customer's words, use, customer; each field is kept as it is left. */
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Pick } from "../../ui/choice";
import { goBack } from "../route";
import { useCameFrom } from "./came-from";
import { ChecklistChoice } from "./checklist-choice";
import { Complaints } from "./complaints";
import { useBay } from "./context";
import { CustomerLanguage } from "./customer-language";
import { changeFact, FactField } from "./fact-field";
import type { OpenCard } from "./open-card";
import { PhotoButton, Thumbs } from "./photos";
import { say } from "./say";
import { Screen } from "./shell";
import { factText } from "./vehicle";
import { readPlate } from "./plate";
import { VinField } from "./vin-field";
import { asText, useDraft } from "./draft";

type Props = { card: OpenCard; state: CardState };

export function BookIn({ card, state, part }: Props & { part?: "checklists" | undefined }) {
  const back = useCameFrom(card.id, { at: "cards" });
  const done = () => goBack({ at: "card", card: card.id });
  return (
    <Screen
      title={say("book-in")}
      back={back}
      card={card}
      foot={
        <Button look="strong" wide onTap={done}>
          {say("to-card")}
        </Button>
      }
    >
      <p class="soft">{say("book-in-says")}</p>
      <section class="stack-wide form">
        <h2>{say("vehicle")}</h2>
        <Plate card={card} state={state} />
        <Vin card={card} state={state} />
        <FactField card={card} state={state} slot="vehicle/make" label={say("make")} />
        <FactField card={card} state={state} slot="vehicle/model" label={say("model")} />
        <FactField card={card} state={state} slot="vehicle/year" label={say("year")} number={[1900, 2100]} />
        <FactField card={card} state={state} slot="vehicle/fuel" label={say("fuel")} />
        <Odometer card={card} state={state} />
        <FactField
          card={card}
          state={state}
          slot="vehicle/modifications"
          label={say("modifications")}
          lines
        />
      </section>
      <Complaints card={card} state={state} />
      <section class="stack-wide form">
        <h2>{say("use-and-customer")}</h2>
        <FactField card={card} state={state} slot="card/planned-use" label={say("planned-use")} lines />
        <FactField card={card} state={state} slot="customer/name" label={say("customer-name")} />
        <FactField
          card={card}
          state={state}
          slot="customer/email"
          label={say("customer-email")}
          kind="email"
        />
        <CustomerLanguage card={card} state={state} />
      </section>
      <section class="stack form">
        <h2>{say("arrival-photos")}</h2>
        <Thumbs card={card} photos={state.photos.filter((photo) => photo.body.about === null)} />
        <PhotoButton card={card} about={null} round={1} label={say("arrival-photo")} />
      </section>
      <ChecklistChoice card={card} state={state} isWanted={part === "checklists"} />
    </Screen>
  );
}

function Plate({ card, state }: Props) {
  const forms = useBay().me.workshop.plate_forms ?? [];
  return (
    <FactField
      card={card}
      state={state}
      slot="vehicle/plate"
      label={say("plate")}
      figure
      tidy={(typed) => readPlate(typed, forms).text}
      remark={(kept) =>
        kept === "" || readPlate(kept, forms).usual
          ? ""
          : say("plate-unusual", { forms: forms.map(example).join(", ") })
      }
    />
  );
}

/** A form as people write it: letters are A, digits 1 and so on. */
function example(form: string): string {
  let digit = 0;
  return form.replaceAll("?", "A").replaceAll("9", () => String(++digit % 10));
}

function Vin({ card, state }: Props) {
  const [draft, setDraft] = useDraft(`${card.id}/vehicle/vin`, asText);
  const kept = factText(state, "vehicle/vin");
  const keep = async (vin: string) => {
    if (await changeFact(card, "vehicle/vin", vin, kept)) setDraft(null);
    // the field itself says that it is too long
    else card.refusal.value = null;
  };
  return <VinField value={draft ?? kept} onType={setDraft} onLeave={(vin) => void keep(vin)} />;
}

function Odometer({ card, state }: Props) {
  const { me } = useBay();
  const slot = "vehicle/odometer";
  const [unit, setUnit] = useDraft(`unit/${card.id}`, asText);
  const fact = state.facts.get(slot);
  const now = fact?.unit ?? unit ?? (me.workshop.units === "us" ? "[mi_i]" : "km");
  const pick = (next: string) => {
    setUnit(next);
    if (fact) void card.keep("fact", slot, { value: Number(fact.value), unit: next });
  };
  return (
    <div class="stack">
      <FactField
        card={card}
        state={state}
        slot={slot}
        label={say("odometer")}
        number={[0, 9_999_999]}
        unit={now}
      />
      <div class="pair">
        <Pick
          legend={say("odometer-unit")}
          picked={now}
          options={[
            { id: "km", label: say("unit-km") },
            { id: "[mi_i]", label: say("unit-miles") },
          ]}
          onPick={pick}
        />
      </div>
    </div>
  );
}
