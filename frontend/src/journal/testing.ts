/** For the tests of this room: reading the vectors that both languages share. */
import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The content of tests/vectors/<name>.json. */
export function vectors<T>(name: string): T {
  const file = join(import.meta.dirname, `../../../tests/vectors/${name}.json`);
  return JSON.parse(readFileSync(file, "utf-8"));
}
