/** Where a limit comes from: names of documents as published, what we say of them in the person's language. */
import type { Limit } from "../../measure/book";
import { say } from "./say";

const BASES: readonly string[] = [
  "published",
  "maker's data",
  "common practice",
  "from memory",
] satisfies Limit["basis"][];

/** The phrases that are ours, not a document's; the longest first. */
const PHRASES = [
  ["common practice, no published figure found", "source-no-figure"],
  ["common practice, no published standard found", "source-no-standard"],
  ["common practice, no standard found", "source-no-standard"],
  ["maker's data for this vehicle", "source-maker"],
  ["Directive 2014/45/EU, Annex I", "source-directive"],
  ["grade by common practice", "source-grade-by-practice"],
  ["plate of this vehicle", "source-plate"],
  ["grade of", "source-grade-of"],
  ["maker's data", "basis-maker's data"],
  ["common practice", "basis-common practice"],
  ["from memory", "basis-from memory"],
] as const;

/** A source as the book has it, in words. */
export function sourceText(source: string): string {
  return PHRASES.reduce((text, [ours, key]) => text.replaceAll(ours, say(key)), source);
}

/** What kind of source it is; a kind the app does not know comes out as the book has it. */
export function basisText(basis: string): string {
  return isBasis(basis) ? say(`basis-${basis}`) : basis;
}

/** The source with its kind, unless it says so itself. */
export function sourceAndBasis(source: string, basis: string): string {
  return source.includes(basis) ? sourceText(source) : `${sourceText(source)} (${basisText(basis)})`;
}

function isBasis(basis: string): basis is Limit["basis"] {
  return BASES.includes(basis);
}
