/** Promises of the bay's catalogue. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import bay from "../../words/en/bay.json";

const folder = import.meta.dirname;
const sources = readdirSync(folder, { recursive: true, encoding: "utf-8" })
  .filter((name) => /\.tsx?$/.test(name) && !name.includes(".test."))
  .map((name) => readFileSync(join(folder, name), "utf-8"))
  .concat(readFileSync(join(folder, "../app.tsx"), "utf-8"))
  .join("\n");
const bare = (key: string) => key.replace(/^bay\./, "").replace(/\.(one|other)$/, "");
/** Keys made of a fixed start and a word of a closed set, as in `state-${outcome.state}`. */
const starts = [...sources.matchAll(/`([a-z-]+-)\$\{/g)].map((match) => match[1] ?? "");

describe("the bay's catalogue", () => {
  it("holds no text that no screen says", () => {
    const unsaid = Object.keys(bay)
      .map(bare)
      .filter((key) => !sources.includes(`"${key}"`) && !starts.some((start) => key.startsWith(start)));
    expect(unsaid).toEqual([]);
  });
});
