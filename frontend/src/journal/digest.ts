/** A short proof that two sides hold the same entries. */
import { sha256 } from "./sha256";

/** SHA-256 in hex of the sorted ids joined by newlines; the same whatever their order. */
export function digest(ids: Iterable<string>): string {
  return digestInOrder([...ids].sort());
}

/** SHA-256 in hex of the ids joined by newlines: the same only for the same ids in the same order. */
export function digestInOrder(ids: readonly string[]): string {
  return sha256(ids.join("\n"));
}
