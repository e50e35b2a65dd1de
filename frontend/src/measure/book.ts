/** The shapes of the book: trade knowledge compiled by the server from seed_checklists/ (docs/formats.md section 2). */

export type Grade = "advice" | "minor" | "major" | "dangerous";
export type Atom = { factor: number; offset?: number; dim: number[]; says: string; metric: boolean };
export type UnitTable = { atoms: Record<string, Atom>; prefixes: Record<string, number> };
export type Instrument = {
  id: string;
  title: string;
  unit: string;
  resolution: number;
  limit_of_error?: number;
  quantity: string;
  source: string;
};
export type Caution = {
  id: string;
  level: "danger" | "warning" | "caution" | "notice";
  title: string;
  says: string;
  source: string;
};
export type Station = { id: string; title: string; lift: "down" | "half" | "full" };
export type Place = {
  id: string;
  title: string;
  station: string;
  side: "left" | "right" | null;
  pair: string | null;
};
export type Tree = [string, ...(number | string | Tree)[]];
export type MethodInput = {
  unit: string;
  range?: [number, number];
  default?: number;
  says: string;
  list?: boolean;
  text?: boolean;
};
export type WorkedExample = {
  id: string;
  inputs: Record<string, { value: unknown; unit: string }>;
  expected: { value: unknown; unit: string };
  rtol: number;
  atol?: number;
  source: string;
  basis: string;
};
export type Method = {
  id: string;
  says: string;
  inputs: Record<string, MethodInput>;
  output: { unit: string; says: string };
  tree: Tree | null;
  function: string | null;
  source: string;
  basis: string;
  validity: string;
  cautions: string[];
  examples: WorkedExample[];
};
export type Option = {
  id: string;
  label: string;
  means: "in-order" | "beyond" | "recorded";
  grade?: Grade;
  title?: string;
  plain?: string;
  source?: string;
  basis?: string;
};
export type Source =
  | { check: string; take: string; at?: string }
  | { value: number; unit: string }
  | { fact: string }
  | { maker: string; ask: string; unit: string };
export type AnswerSpec =
  | { kind: "choice"; options: Option[] }
  | { kind: "number"; unit: string; decimals: number; range: [number, number]; instruments: string[] }
  | {
      kind: "spread";
      unit: string;
      decimals: number;
      range: [number, number];
      points: { id: string; label: string }[];
      instruments: string[];
    }
  | {
      kind: "run";
      unit: string;
      decimals: number;
      range: [number, number];
      every_s: number | null;
      seconds: number;
      shape: "gauge" | "count" | "countdown";
      instruments: string[];
    }
  | { kind: "codes" }
  | { kind: "photo"; least: number }
  | { kind: "sound"; seconds: number }
  | { kind: "text" }
  | { kind: "worked-out"; method: string; unit: string; decimals: number; inputs: Record<string, Source> };
export type Limit = {
  id: string;
  of: "value" | "min" | "max" | "range" | "side-difference";
  above?: number;
  below?: number;
  unit: string;
  maker?: { key: string; ask: string; is: "above" | "below" };
  grade: Grade;
  title: string;
  plain: string;
  source: string;
  basis: "published" | "maker's data" | "common practice" | "from memory";
  applies: string;
};
export type Check = {
  id: string;
  ask: string;
  how: string[];
  plain: string;
  at: string[];
  answer: AnswerSpec;
  limits: Limit[];
  cautions: string[];
  photo: "required" | "wanted" | null;
  if_failed: string | null;
  only_if: { check: string; is: string[] } | null;
};
export type Checklist = {
  id: string;
  version: number;
  sha256: string;
  title: string;
  why: string;
  not_instead_of: string;
  cautions: string[];
  tools: string[];
  stations: string[];
  checks: Check[];
};
export type Book = {
  format: number;
  sha256: string;
  /** the language of what people read in it; absent: English */
  language?: string;
  /** first 8 hex digits of the SHA-256 of every sentence that a finding may take from a check, in every language */
  sentences?: string[];
  units: UnitTable;
  instruments: Record<string, Instrument>;
  cautions: Record<string, Caution>;
  stations: Station[];
  places: Record<string, Place>;
  methods: Record<string, Method>;
  checklists: Checklist[];
};
