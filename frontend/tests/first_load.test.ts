// @vitest-environment node
import { gzipSync } from "node:zlib";
import preact from "@preact/preset-vite";
import { build, type Rolldown } from "vite";
import { afterEach, expect, test, vi } from "vitest";

const LIMIT_BYTES = 60_000;

afterEach(() => vi.unstubAllEnvs());

test("what a phone must load before the first screen stays below 60 kB of compressed JavaScript", async () => {
  const chunks = await builtChunks();
  const entry = chunks.find((chunk) => chunk.isEntry);
  const bytes = [...withImports(entry, chunks)].reduce(
    (sum, { code }) => sum + gzipSync(code, { level: 9 }).length,
    0,
  );
  expect(bytes).toBeGreaterThan(5_000);
  expect(bytes).toBeLessThan(LIMIT_BYTES);
}, 60_000);

/** The app as the real build makes it, kept in memory. */
async function builtChunks(): Promise<Rolldown.OutputChunk[]> {
  // Under "test" the JSX of development would be measured, 5 kB that no phone loads.
  vi.stubEnv("NODE_ENV", "production");
  const made = await build({
    configFile: false,
    mode: "production",
    logLevel: "silent",
    plugins: [preact()],
    worker: { format: "es" },
    build: { write: false, target: "es2022" },
  });
  if (!("output" in made)) throw new Error("one build was expected");
  return made.output.filter((one) => one.type === "chunk");
}

/** The chunk and all that it imports at once; what is imported when needed does not count. */
function withImports(
  chunk: Rolldown.OutputChunk | undefined,
  all: Rolldown.OutputChunk[],
): Set<Rolldown.OutputChunk> {
  const found = new Set<Rolldown.OutputChunk>();
  const visit = (one: Rolldown.OutputChunk | undefined) => {
    if (one === undefined || found.has(one)) return;
    found.add(one);
    for (const name of one.imports) visit(all.find(({ fileName }) => fileName === name));
  };
  visit(chunk);
  return found;
}
