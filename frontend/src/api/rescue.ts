/** A phone's file on its way in at the desk, and what the server says became of each thing in it. */
import type { Result } from "./result";
import { isRecord, text, type Shape } from "./shapes";
import { callJson, type Wire } from "./wire";

export type Refused = { title: string; do: string; count: number };
export type TakenIn = {
  entries: { kept: number; again: number };
  blobs: { kept: number; again: number };
  /** entries, photos and sounds that were refused, by the reason */
  refused: Refused[];
  cards: string[];
};

/** Hundreds of photos are cleaned one after another before the answer comes. */
const LIMIT_MS = 15 * 60_000;

export function takeIn(wire: Wire, file: Blob): Promise<Result<TakenIn>> {
  const headers = { "Content-Type": "application/zip" };
  return callJson(
    wire,
    { method: "POST", path: "/api/desk/rescue", bytes: file, headers, limit_ms: LIMIT_MS },
    takenInShape,
  );
}

const takenInShape: Shape<TakenIn> = ({ results, blobs, cards }) => {
  if (!Array.isArray(results) || !Array.isArray(blobs) || !Array.isArray(cards)) return null;
  const refused = new Map<string, Refused>();
  for (const one of [...results, ...blobs]) noteRefusal(one, refused);
  return {
    entries: counts(results),
    blobs: counts(blobs),
    refused: [...refused.values()],
    cards: cards.filter((card) => typeof card === "string"),
  };
};

function counts(results: unknown[]): { kept: number; again: number } {
  const of = (outcome: string) => results.filter((one) => isRecord(one) && one["outcome"] === outcome).length;
  return { kept: of("kept"), again: of("already-kept") };
}

function noteRefusal(one: unknown, into: Map<string, Refused>): void {
  if (!isRecord(one) || one["outcome"] !== "refused") return;
  const [title, todo] = [text(one["title"]), text(one["do"])];
  const known = into.get(title + todo);
  into.set(title + todo, { title, do: todo, count: (known?.count ?? 0) + 1 });
}
