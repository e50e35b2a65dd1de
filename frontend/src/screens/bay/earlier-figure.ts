/** The maker's figures that were typed on earlier cards of the same vehicle, so that each is asked for only once. */
import { standing } from "../../journal/standing";
import type { Entry, FactBody } from "../../journal/types";
import type { Store } from "../../store/types";

/** The figure, and when it was typed (for display only). */
export type EarlierFigure = { fact: FactBody; made_at: string };
type Figures = Map<string, EarlierFigure>;
type Cards = Pick<Store, "cards" | "entriesOf">;

const VIN = "vehicle/vin";
const PLATE = "vehicle/plate";
const FIGURE = "vehicle/maker/";
/** How many of the newest other cards are looked through: enough for some years, and soon read. */
const CARDS_LOOKED_AT = 200;

/**
 * Gives what stands in a slot on the newest other card of this vehicle that holds it; null when none does.
 *
 * The same vehicle: the same VIN, or the same plate where a VIN is lacking. A slot in dispute gives nothing. The other
 * cards are looked through once for as long as VIN and plate stay.
 */
export function earlierFigures(store: Cards, card: string): (slot: string) => Promise<EarlierFigure | null> {
  let looked: { vehicle: string; figures: Promise<Figures> } | null = null;
  return async (slot) => {
    const mine = factsIn(await store.entriesOf(card));
    const vehicle = `${textIn(mine, VIN)} ${textIn(mine, PLATE)}`;
    if (looked?.vehicle !== vehicle) looked = { vehicle, figures: lookThrough(store, card, mine) };
    return (await looked.figures).get(slot) ?? null;
  };
}

async function lookThrough(store: Cards, card: string, mine: Facts): Promise<Figures> {
  const figures: Figures = new Map();
  if (!textIn(mine, VIN) && !textIn(mine, PLATE)) return figures;
  const others = (await store.cards()).filter((id) => id !== card);
  for (const id of others.slice(-CARDS_LOOKED_AT)) {
    const theirs = factsIn(await store.entriesOf(id));
    if (!isSameVehicle(mine, theirs)) continue;
    for (const [slot, { body, made_at }] of theirs)
      if (slot.startsWith(FIGURE)) figures.set(slot, { fact: body, made_at });
  }
  return figures;
}

type Facts = ReadonlyMap<string, Extract<Entry, { kind: "fact" }>>;

/** The vehicle's facts that stand alone. */
function factsIn(entries: readonly Entry[]): Facts {
  const stand = standing(entries.filter((entry) => entry.slot.startsWith("vehicle/")));
  const facts = new Map<string, Extract<Entry, { kind: "fact" }>>();
  for (const [slot, [only, ...more]] of stand)
    if (only?.kind === "fact" && more.length === 0) facts.set(slot, only);
  return facts;
}

function isSameVehicle(a: Facts, b: Facts): boolean {
  const [vin, other] = [textIn(a, VIN), textIn(b, VIN)];
  if (vin && other) return vin === other;
  const plate = textIn(a, PLATE);
  return plate !== "" && plate === textIn(b, PLATE);
}

/** Letters and digits alone: people write a plate with and without its spaces. */
function textIn(facts: Facts, slot: string): string {
  return String(facts.get(slot)?.body.value ?? "")
    .toUpperCase()
    .replaceAll(/[^\p{L}\p{N}]/gu, "");
}
