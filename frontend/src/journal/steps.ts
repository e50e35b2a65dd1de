/** The steps of a checklist in walking order. */
import type { Book, Check, Checklist, Place, Station } from "../measure/book";
import type { Step } from "./types";

const UNKNOWN_STATION: Station = { id: "", title: "", lift: "down" };
const kept = new WeakMap<Checklist, { book: Book; steps: readonly Step[] }>();

/**
 * Every check at each of its places: by the checklist's stations, inside a station by the order of the checks.
 *
 * A place that the book no longer has, or that is at none of the stations, comes last under its id; no step is lost.
 */
export function steps(checklist: Checklist, book: Book): readonly Step[] {
  const held = kept.get(checklist);
  if (held?.book === book) return held.steps;
  const made = walk(checklist, book);
  kept.set(checklist, { book, steps: made });
  return made;
}

function walk(checklist: Checklist, book: Book): Step[] {
  const stations = new Map(book.stations.map((station) => [station.id, station]));
  const rank = new Map(checklist.stations.map((id, place) => [id, place]));
  const all = checklist.checks.flatMap((check) =>
    check.at.map((at) => step(checklist, check, book.places[at] ?? lostPlace(at), stations)),
  );
  const rankOf = ({ station }: Step) => rank.get(station.id) ?? checklist.stations.length;
  return all.sort((a, b) => rankOf(a) - rankOf(b));
}

function step(
  checklist: Checklist,
  check: Check,
  place: Place,
  stations: ReadonlyMap<string, Station>,
): Step {
  return {
    checklist: checklist.id,
    check,
    place,
    station: stations.get(place.station) ?? UNKNOWN_STATION,
  };
}

function lostPlace(id: string): Place {
  return { id, title: id, station: "", side: null, pair: null };
}
