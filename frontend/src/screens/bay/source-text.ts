/** Where a limit comes from: the book says it in the person's language, the app what kind of source it is. */
import type { Limit } from "../../measure/book";
import { say } from "./say";

const BASES: readonly string[] = [
  "published",
  "maker's data",
  "common practice",
  "from memory",
] satisfies Limit["basis"][];

/** What kind of source it is; a kind the app does not know comes out as the book has it. */
export function basisText(basis: string): string {
  return isBasis(basis) ? say(`basis-${basis}`) : basis;
}

/** The source with its kind, unless it says so itself; a checklist older than the translations does so in English. */
export function sourceAndBasis(source: string, basis: string): string {
  const kind = basisText(basis);
  return [kind, basis].some((name) => source.includes(name)) ? source : `${source} (${kind})`;
}

function isBasis(basis: string): basis is Limit["basis"] {
  return BASES.includes(basis);
}
