/** Facts of the card in a few words. */
import type { CardState, Finding } from "../../journal/types";
import type { Book } from "../../measure/book";
import { formatNumber } from "../../words/words";
import { unitText } from "./figures";
import { say } from "./say";

export function factText(state: CardState, slot: string): string {
  const value = state.facts.get(slot)?.value;
  return value === undefined ? "" : String(value);
}

/** Make and model, or what is known of the vehicle, or "new card". */
export function vehicleName(state: CardState): string {
  const make = [factText(state, "vehicle/make"), factText(state, "vehicle/model")].filter(Boolean).join(" ");
  const plate = factText(state, "vehicle/plate");
  return (
    [plate, make].filter(Boolean).join(" · ") || factText(state, "vehicle/vin") || say("card-without-vehicle")
  );
}

/** A finding's title with where it is: the same thing may be wrong at two wheels. */
export function findingName({ entry }: Finding, book: Book): string {
  const { title, place } = entry.body;
  const where = place === null ? undefined : book.places[place]?.title;
  return where === undefined ? title : `${title} · ${where}`;
}

export function odometerText(state: CardState): string {
  const fact = state.facts.get("vehicle/odometer");
  return fact ? `${formatNumber(Number(fact.value))} ${unitText(fact.unit ?? "")}` : "";
}

/** "As found" for round 1, "after work" from then on. */
export function roundName(round: number): string {
  if (round === 1) return say("as-found");
  return round === 2 ? say("after-work") : say("after-work-again", { n: round - 1 });
}
