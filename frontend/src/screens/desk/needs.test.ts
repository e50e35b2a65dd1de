import { describe, expect, it } from "vitest";
import type { CardState, StepOutcome } from "../../journal/types";
import {
  groupOf,
  needsOf,
  recheckedSteps,
  unknownLimits,
  waitingSince,
  worstFirst,
  worstGrade,
} from "./needs";

function outcome(state: StepOutcome["state"]): StepOutcome {
  return { state, standing: [], value: null, limits: [], lacks: [] } as unknown as StepOutcome;
}

function cardWith(parts: Partial<CardState>): CardState {
  const empty = {
    checklists: [],
    complaints: [],
    disagreements: [],
    proposals: [],
    findings: [],
    stage: { is: "walking" },
  };
  return { ...empty, ...parts } as unknown as CardState;
}

function oneStep(kind: string, ...states: StepOutcome["state"][]) {
  const step = { step: { check: { answer: { kind } } }, rounds: states.map(outcome) };
  return [{ steps: [step] }] as unknown as CardState["checklists"];
}

describe("what a card still asks", () => {
  it("counts an open check of the first round, but not of a recheck", () => {
    expect(needsOf(cardWith({ checklists: oneStep("choice", "open") }), 0).open).toBe(1);
    expect(needsOf(cardWith({ checklists: oneStep("choice", "beyond", "open") }), 0).open).toBe(0);
  });

  it("does not ask a person for what is worked out", () => {
    expect(needsOf(cardWith({ checklists: oneStep("worked-out", "open") }), 0).open).toBe(0);
  });

  it("counts a reading too close to call in any round", () => {
    expect(needsOf(cardWith({ checklists: oneStep("number", "beyond", "too-close") }), 0).tooClose).toBe(1);
  });

  it("passes on the photos that the server does not hold", () => {
    expect(needsOf(cardWith({}), 3).photos).toBe(3);
  });
});

describe("where a card stands in the list", () => {
  it("puts two people moving it apart before the foreman", () => {
    const stage = { is: "disagreement", standing: [] } as unknown as CardState["stage"];
    expect(groupOf(cardWith({ stage }))).toBe("handed-in");
  });

  it("takes a signed card that has changed back among the open ones", () => {
    const stage = { is: "signed", changedSince: true } as unknown as CardState["stage"];
    expect(groupOf(cardWith({ stage }))).toBe("walking");
  });

  it("names the worst grade of all findings", () => {
    const findings = ["minor", "dangerous", "major"].map((grade) => ({ entry: { body: { grade } } }));
    expect(worstGrade(cardWith({ findings: findings as unknown as CardState["findings"] }))).toBe(
      "dangerous",
    );
    expect(worstGrade(cardWith({}))).toBeNull();
  });
});

describe("what the desk lists", () => {
  it("lists every step answered again after work, with a finding or without", () => {
    const again = { ...outcome("in-order"), standing: [{ id: "1" }] } as unknown as StepOutcome;
    const step = { step: { check: { answer: { kind: "number" } } }, rounds: [outcome("in-order"), again] };
    const once = { ...step, rounds: [again, outcome("open")] };
    const checklists = [{ steps: [step, once] }] as unknown as CardState["checklists"];
    expect(recheckedSteps(cardWith({ checklists }))).toEqual([step]);
  });

  it("names a maker's figure that is not known once, with all it would judge", () => {
    const limits = [{ id: "play", unit: "mm", maker: { key: "play", ask: "Largest play?", is: "above" } }];
    const answered = { ...outcome("recorded"), value: 0.2 };
    const step = { step: { check: { limits } }, rounds: [answered] };
    const open = { step: { check: { limits } }, rounds: [outcome("open")] };
    const checklists = [{ steps: [step, step, open] }] as unknown as CardState["checklists"];
    const facts = new Map<string, { value: number }>();
    const found = unknownLimits(cardWith({ checklists, facts }));
    expect(found).toEqual([{ key: "play", ask: "Largest play?", unit: "mm", steps: [step] }]);
    facts.set("vehicle/maker/play", { value: 0.1 });
    expect(unknownLimits(cardWith({ checklists, facts }))).toEqual([]);
  });

  it("knows since when a card waits by the entry that handed it in", () => {
    const stage = { is: "handed-in", entry: { id: "019ab" } } as unknown as CardState["stage"];
    expect(waitingSince(cardWith({ stage }))).toBe("019ab");
  });
});

it("asks about the worst proposal first, as the findings stand", () => {
  const proposed = ["advice", "major", "minor", "dangerous"].map((grade) => ({ outcome: { grade } }));
  const sorted = worstFirst(proposed as unknown as CardState["proposals"]);
  expect(sorted.map(({ outcome: { grade } }) => grade)).toEqual(["dangerous", "major", "minor", "advice"]);
});
