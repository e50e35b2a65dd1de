/** Answers measuring jobs, one JSON line each on standard input, so that the server's tests can compare both languages. */
import { readFileSync } from "node:fs";
import type { UnitTable } from "../src/measure/book";
import { MeasureError } from "../src/measure/errors";
import { FUNCTIONS } from "../src/measure/functions";
import type { Given } from "../src/measure/given";
import { type Quantity, work, type Workable } from "../src/measure/methods";
import { evaluate, type Inputs } from "../src/measure/tree";
import { type Gauge, readingUncertainty } from "../src/measure/uncertainty";
import { Units } from "../src/measure/units";
import { type Bounds, settle, verdict } from "../src/measure/verdict";

type Job =
  | { do: "tree"; tree: unknown[]; inputs: Inputs }
  | { do: "unit"; code: string }
  | { do: "convert"; value: number; from: string; to: string }
  | { do: "function"; function: string; inputs: Given }
  | { do: "method"; method: Workable; inputs: Record<string, Quantity> }
  | { do: "reading"; values: number[]; gauge: Gauge }
  | { do: "verdict"; value: number; u: number; bounds: Bounds; k: number }
  | { do: "settle"; values: number[]; gauge: Gauge; bounds: Bounds; others: Record<string, Gauge> };

const [first = "{}", ...lines] = readFileSync(0, "utf8").trim().split("\n");
const units = new Units(JSON.parse(first) as UnitTable);

function answer(job: Job): unknown {
  switch (job.do) {
    case "tree":
      return evaluate(job.tree, job.inputs);
    case "unit":
      return [units.read(job.code).factor, units.read(job.code).offset, ...units.read(job.code).dim];
    case "convert":
      return units.convert(job.value, job.from, job.to);
    case "function":
      return FUNCTIONS[job.function]?.work(job.inputs, units);
    case "method":
      return work(job.method, job.inputs, units);
    case "reading":
      return readingUncertainty(job.values, job.gauge);
    case "verdict":
      return verdict(job.value, job.u, job.bounds, job.k);
    case "settle":
      return settle(job.values, job.gauge, job.bounds, job.others);
  }
}

function outcome(job: Job): { value: unknown } | { code: string } {
  try {
    return { value: answer(job) };
  } catch (error) {
    if (error instanceof MeasureError) return { code: error.code };
    throw error;
  }
}

process.stdout.write(lines.map((line) => JSON.stringify(outcome(JSON.parse(line) as Job)) + "\n").join(""));
