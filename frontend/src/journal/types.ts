/** The shapes of docs/formats.md that the journal room owns: entries, bodies, and the card computed from them. */
import type { Check, Checklist, Grade, Limit, Place, Station } from "../measure/book";
import type { Reading } from "./reading";

export type FactBody = { value: string | number; unit?: string };
export type Answer = (
  | { is: "choice"; choice: string }
  | { is: "number"; value: number; unit: string; typed?: string; repeats?: number[]; instrument?: string }
  | { is: "spread"; values: Record<string, number>; unit: string; instrument?: string }
  | { is: "run"; samples: [number, number][]; unit: string; instrument?: string }
  | { is: "codes"; codes: string[] }
  | { is: "text"; words: string }
) & { note?: string };
export type NotCheckedReason =
  "no-access" | "not-fitted" | "no-tool" | "unsafe" | "no-time" | "customer-declined" | "other";
export type FindingBody = {
  title: string;
  plain: string;
  grade: Grade;
  about: string | null;
  place: string | null;
  complaints: string[];
  photos: string[];
  proposed: { grade: Grade; title: string; limit: string } | null;
  note: string;
};
export type PhotoBody = {
  blob: string;
  mime: string;
  bytes: number;
  width: number;
  height: number;
  about: string | null;
  round: number;
  caption: string;
};
export type SoundBody = {
  blob: string;
  mime: string;
  bytes: number;
  seconds: number;
  about: string | null;
  round: number;
  caption: string;
};
export type WorkBody = {
  findings: string[];
  words: string;
  parts: { name: string; state: "new" | "re-used" | "repaired"; count: number }[];
  torque: string;
  improvised: string;
};
export type OutcomeBody = {
  outcome: "cause-found" | "ruled-out" | "not-traced";
  findings: string[];
  words: string;
};
export type AgreedBody = {
  answer: "go-ahead" | "not-now" | "no";
  by: string;
  how: "in person" | "by phone" | "in writing";
};
export type SignOffBody = {
  revision: number;
  count: number;
  digest: string;
  arrival: number;
  sha256: string;
  drive: "yes" | "with-restrictions" | "no" | "not-judged";
  restrictions: string;
  look_again: string;
  words: string;
  /** signed although these photos and sounds had not arrived */
  without_photos?: { why: string; missing: string[] };
};

type Kinds = {
  fact: FactBody;
  complaint: { words: string };
  "complaint-outcome": OutcomeBody;
  "checklist-chosen": { version: number; sha256: string };
  answer: Answer;
  "not-checked": { reason: NotCheckedReason; words: string };
  finding: FindingBody;
  "finding-declined": { words: string };
  photo: PhotoBody;
  sound: SoundBody;
  "work-done": WorkBody;
  agreed: AgreedBody;
  "handed-in": { words: string };
  "sent-back": { words: string; slots: string[] };
  "signed-off": SignOffBody;
  retraction: Record<string, never>;
};
export type Kind = keyof Kinds;
export type BodyOf<K extends Kind> = Kinds[K];

export type EntryOf<K extends Kind> = {
  id: string;
  card: string;
  slot: string;
  kind: K;
  body: BodyOf<K>;
  replaces: string[];
  author: string;
  device: string;
  made_at: string;
  format: number;
  /** how far the clock behind `made_at` was ahead of the server's; left out where they agreed or nobody knew */
  clock_off_ms?: number;
};
/** One entry of any kind; narrow it by `kind`. */
export type Entry = { [K in Kind]: EntryOf<K> }[Kind];

/** slot -> the entries that stand in it, oldest id first. */
export type Standing = ReadonlyMap<string, readonly Entry[]>;

/** A check at a position: what fills the screen. Its slot in round n is `checkSlot(step, n)`. */
export type Step = { checklist: string; check: Check; place: Place; station: Station };

export type LimitOutcome = {
  limit: Limit;
  state: "in-order" | "beyond" | "too-close" | "unknown";
  bound: number | null;
};
/** What is known of one step in one round. */
export type StepOutcome = {
  slot: string;
  state:
    "open" | "recorded" | "in-order" | "beyond" | "too-close" | "not-checked" | "disagreement" | "not-asked";
  standing: readonly Entry[];
  /** the judged number, in `unit`, with its standard uncertainty */
  value: number | null;
  u: number | null;
  unit: string | null;
  /** the step's own number; the judged one is another where it is a difference of two sides or of readings */
  own: Reading | null;
  /** slots of what a worked-out answer still needs, or words of what is wrong with an input */
  lacks: string[];
  limits: LimitOutcome[];
  /** set when beyond or too close: the worst limit or option crossed */
  grade: Grade | null;
  title: string | null;
  plain: string | null;
  /** limit id or option id behind the grade */
  because: string | null;
  /** too close to call: what would settle it */
  settle: { repeats: number | null; instrument: string | null } | null;
};

export type Finding = {
  slot: string;
  entry: EntryOf<"finding">;
  /** more than one when two people wrote it apart */
  standing: readonly Entry[];
  agreed: EntryOf<"agreed"> | null;
  work: EntryOf<"work-done">[];
};
/** A finding that a limit or an option proposes and nobody has accepted or declined yet. */
export type Proposal = { slot: string; step: Step; round: number; outcome: StepOutcome };

export type StepState = { step: Step; rounds: StepOutcome[] };
export type ChecklistState = {
  checklist: Checklist;
  /** in walking order; rounds[0] is as found */
  steps: StepState[];
  /** steps that a person answers, as found; a disagreement is still open */
  open: number;
  done: number;
};
export type ComplaintState = {
  id: string;
  words: string;
  entry: EntryOf<"complaint">;
  outcome: EntryOf<"complaint-outcome"> | null;
  findings: string[];
};
export type Stage =
  | { is: "walking" }
  | { is: "handed-in"; entry: EntryOf<"handed-in"> }
  | { is: "sent-back"; entry: EntryOf<"sent-back"> }
  | { is: "signed"; entry: EntryOf<"signed-off">; changedSince: boolean }
  | { is: "disagreement"; standing: readonly Entry[] };

/** Everything computed from the standing entries of one card. */
export type CardState = {
  card: string;
  entries: readonly Entry[];
  standing: Standing;
  facts: ReadonlyMap<string, FactBody>;
  complaints: ComplaintState[];
  checklists: ChecklistState[];
  /** worst first */
  findings: Finding[];
  proposals: Proposal[];
  declined: EntryOf<"finding-declined">[];
  notChecked: { step: Step; round: number; entry: EntryOf<"not-checked"> }[];
  photos: EntryOf<"photo">[];
  sounds: EntryOf<"sound">[];
  work: EntryOf<"work-done">[];
  stage: Stage;
  /** slots with two or more standing entries */
  disagreements: string[];
  /** chosen checklists whose version this phone does not hold */
  missingChecklists: { id: string; version: number }[];
  /** the round new answers belong to: 1 until work was recorded, then 2 and up */
  round: number;
};
