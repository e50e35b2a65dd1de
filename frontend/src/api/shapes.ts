/** The shapes the server answers in, and the checks that make an answer one of ours. */
import { digestInOrder } from "../journal/digest";
import type { Entry } from "../journal/types";

export type Server = { instance: string; epoch: number };
export type Role = "technician" | "foreman" | "owner";
export type Person = { id: string; name: string; role: Role };
export type SignedIn = {
  person: Person;
  device: { id: string; name: string };
  workshop: { id: string; name: string; units: "metric" | "us"; plate_forms: string[] };
};
export type Ping = {
  time: string;
  formats: number[];
  book: string;
  app: string;
  /** days left of the server's certificate, told only when they are few */
  certificate_days: number | null;
};
type Outcome = { outcome: "kept" } | { outcome: "refused"; code: string; title: string; do: string };
export type PushResult = { id: string } & Outcome;
export type Page = { entries: (Entry & { arrival: number })[]; cursor: number; more: boolean };
export type CardDigest = { count: number; digest: string; blobs: { sha256: string; held: boolean }[] };

export type Json = Record<string, unknown>;
/** Gives the value in its proper shape, or null when it is not of that shape. */
export type Shape<T> = (json: Json) => T | null;

export function isRecord(value: unknown): value is Json {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

/** The texts of a list; none when it is not there. */
function texts(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((one) => typeof one === "string") : [];
}

export function serverOf(json: Json): Server | null {
  const { server } = json;
  if (!isRecord(server)) return null;
  const { instance, epoch } = server;
  return typeof instance === "string" && typeof epoch === "number" ? { instance, epoch } : null;
}

export const pingShape: Shape<Ping> = (json) => {
  const { time, formats, book, app, certificate_days: days } = json;
  if (typeof time !== "string" || typeof book !== "string" || !Array.isArray(formats)) return null;
  return {
    time,
    formats: formats.filter((one) => typeof one === "number"),
    book,
    app: text(app),
    certificate_days: typeof days === "number" ? days : null,
  };
};

export const signedInShape: Shape<SignedIn> = (json) => {
  const { person, device, workshop } = json;
  if (!isPerson(person) || !isRecord(device) || !isRecord(workshop)) return null;
  const units = workshop["units"] === "us" ? "us" : "metric";
  const plateForms = texts(workshop["plate_forms"]);
  if (!isNamed(device) || !isNamed(workshop)) return null;
  return {
    person: { id: person.id, name: person.name, role: person.role },
    device: { id: device.id, name: device.name },
    workshop: { id: workshop.id, name: workshop.name, units, plate_forms: plateForms },
  };
};

export const namesShape: Shape<Person[]> = ({ people }) =>
  Array.isArray(people) && people.every(isPerson) ? people : null;

/**
 * The outcome of each of the entries that were sent. The answer names none of them, it tells runs of outcomes: it counts
 * only with the digest of exactly these ids in this order, and when its runs are as long as the batch.
 */
export function pushShape(sent: readonly string[]): Shape<PushResult[]> {
  return ({ ids, results }) => {
    if (ids !== digestInOrder(sent) || !Array.isArray(results)) return null;
    const read = results.map(outcomesOfRun);
    if (!read.every((run) => run !== null)) return null;
    const counted = read.reduce((sum, run) => sum + run.count, 0);
    if (counted !== sent.length) return null;
    let next = 0;
    return read.flatMap(({ count, outcome }) =>
      sent.slice(next, (next += count)).map((id) => ({ id, ...outcome })),
    );
  };
}

export const pageShape: Shape<Page> = ({ entries, cursor, more }) =>
  Array.isArray(entries) && entries.every(isPulled) && typeof cursor === "number" && typeof more === "boolean"
    ? { entries, cursor, more }
    : null;

export const digestShape: Shape<CardDigest> = ({ count, digest, blobs }) =>
  typeof count === "number" && typeof digest === "string" && Array.isArray(blobs) && blobs.every(isBlobHeld)
    ? { count, digest, blobs }
    : null;

type Run = { count: number; outcome: Outcome };

function outcomesOfRun(run: unknown): Run | null {
  if (!isRecord(run)) return null;
  const { count, outcome, code, title } = run;
  if (typeof count !== "number" || !Number.isInteger(count) || count < 1) return null;
  if (outcome === "kept" || outcome === "already-kept") return { count, outcome: { outcome: "kept" } };
  if (outcome !== "refused") return null;
  return { count, outcome: { outcome, code: text(code), title: text(title), do: text(run["do"]) } };
}

export function isNamed(value: unknown): value is { id: string; name: string } {
  return isRecord(value) && typeof value["id"] === "string" && typeof value["name"] === "string";
}

export function isPerson(value: unknown): value is Person {
  if (!isNamed(value) || !("role" in value)) return false;
  return value.role === "technician" || value.role === "foreman" || value.role === "owner";
}

/** Only what the store needs is checked here: an entry of a newer kind or format is kept unread. */
function isPulled(value: unknown): value is Entry & { arrival: number } {
  if (!isRecord(value)) return false;
  const { id, card, slot, kind, arrival, body } = value;
  const named = [id, card, slot, kind].every((one) => typeof one === "string" && one !== "");
  return named && typeof arrival === "number" && isRecord(body);
}

function isBlobHeld(value: unknown): value is { sha256: string; held: boolean } {
  return isRecord(value) && typeof value["sha256"] === "string" && typeof value["held"] === "boolean";
}
