// @vitest-environment node
/** An entry over which the server fails whenever it is sent: all others arrive, and this one waits in sight. */
import { describe, expect, test } from "vitest";
import { eventually } from "../../tests/support/eventually";
import { anId, aNote, notes } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { FakeServer } from "../../tests/support/server";
import { problem, SILENCE, success, Talk } from "../../tests/support/talk";
import type { Failure } from "../api/result";
import type { Step } from "./state";
import { statusOf } from "./status-of";

const FAULT = problem(500);
const HOUR_MS = 3_600_000;

/** A phone and a server that answers at once; `answer` says what becomes of a push of these entries, null for well. */
class Shift {
  readonly talk = new Talk();
  compare: string[] = [];
  readonly pushes: { at: number; sent: string[] }[] = [];

  constructor(
    public waiting: string[],
    public answer: (sent: string[]) => Failure | null,
    public others: (step: Step) => Failure | null = () => null,
  ) {
    this.talk.start(this.#queue());
    this.works();
  }

  /** Answers step after step until the phone rests or waits. */
  works(): this {
    const { talk } = this;
    for (let steps = 0; talk.step !== null; steps += 1) {
      expect(steps, "the phone does not come to rest").toBeLessThan(2_000);
      if (talk.step.do === "push") this.#push(talk.step);
      else {
        const failure = this.others(talk.step);
        if (talk.step.do === "compare") this.compare = [];
        if (failure === null) talk.comesBack(success(talk.step), this.#queue());
        else talk.fails(failure);
      }
    }
    return this;
  }

  /** Goes on for so long, or until `done`; gives how long that took, in ms. */
  goesOn(ms: number, done: () => boolean = () => false): number {
    const { talk } = this;
    const begun = talk.now;
    while (!done() && talk.until !== null && talk.until <= begun + ms) {
      talk.rings();
      this.works();
    }
    if (!done()) talk.now = begun + ms;
    return talk.now - begun;
  }

  taps(id: string): this {
    this.waiting.push(id);
    this.talk.queue = { ...this.talk.queue, ...this.#queue() };
    this.talk.hear({ is: "woke", why: "entry" });
    return this.works();
  }

  get stuck(): string[] {
    return statusOf(this.talk.state, this.talk).stuck.map((one) => one.id);
  }

  #push({ limit, choice }: Step & { do: "push" }): void {
    const only = choice !== undefined && "only" in choice ? choice.only : null;
    const but = choice !== undefined && "but" in choice ? choice.but : [];
    const sent = (only ?? this.waiting.filter((id) => !but.includes(id))).slice(0, limit);
    this.pushes.push({ at: this.talk.now, sent });
    const failure = this.answer(sent);
    if (failure === null) {
      this.waiting = this.waiting.filter((id) => !sent.includes(id));
      this.talk.comesBack({ of: "push", sent: sent.length, settled: sent.length }, this.#queue());
    } else this.talk.failsOver(failure, sent);
  }

  #queue() {
    return { entries: this.waiting.length, entry_ids: [...this.waiting], compare: this.compare };
  }
}

const many = (count: number) => Array.from({ length: count }, (_, place) => `e${place}`);
const failsOver =
  (...bad: string[]) =>
  (sent: string[]) =>
    sent.some((id) => bad.includes(id)) ? FAULT : null;

describe("an entry over which the server fails every time", () => {
  test("is found within half a minute in a long queue, and all others arrive", () => {
    const shift = new Shift(many(500), failsOver("e77"));
    expect(shift.goesOn(HOUR_MS, () => shift.waiting.length === 1)).toBeLessThan(30_000);
    expect(shift.waiting).toEqual(["e77"]);
    shift.goesOn(5_000);
    expect(shift.stuck).toEqual(["e77"]);
  });

  test("is not the only one: several are found, too, wherever they stand", () => {
    const bad = ["e0", "e1", "e64", "e199"];
    const shift = new Shift(many(200), failsOver(...bad));
    expect(shift.goesOn(HOUR_MS, () => shift.waiting.length === 4)).toBeLessThan(60_000);
    expect([...shift.waiting].sort()).toEqual([...bad].sort());
  });

  test("is tried ever more rarely, although what is recorded meanwhile goes at once", () => {
    const shift = new Shift(["bad"], failsOver("bad"));
    for (let tap = 0; tap < 20; tap += 1) {
      shift.goesOn(30_000);
      const before = shift.talk.now;
      expect(shift.taps(`e${tap}`).waiting, `tap ${tap}`).toEqual(["bad"]);
      expect(shift.talk.now).toBe(before);
    }
    const tries = shift.pushes.filter(({ sent }) => sent.includes("bad")).map(({ at }) => at);
    const pauses = tries.slice(1).map((at, place) => at - (tries[place] ?? 0));
    expect(pauses.slice(0, 6)).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000]);
    expect(Math.min(...pauses.slice(6))).toBeGreaterThanOrEqual(60_000);
  });

  test("holds up neither what others wrote nor the comparing of cards", () => {
    const shift = new Shift(["bad"], failsOver("bad"));
    const done: string[] = [];
    shift.others = (step) => (done.push(step.do), null);
    shift.talk.hear({ is: "woke", why: "news" });
    shift.compare = ["c"];
    shift.works();
    expect(done).toEqual(["pull", "compare"]);
  });

  test("still lets the others go first after the app was looked at anew", () => {
    const shift = new Shift([...many(100), "bad"], failsOver("bad"));
    shift.goesOn(HOUR_MS, () => shift.waiting.length === 1);
    const before = shift.pushes.length;
    shift.waiting.push("new");
    shift.talk.queue = { ...shift.talk.queue, entries: 2, entry_ids: ["bad", "new"] };
    shift.talk.hear({ is: "woke", why: "focus" });
    shift.works();
    expect(shift.pushes.slice(before).map(({ sent }) => sent)).toEqual([["new"], ["bad"]]);
  });

  test("arrives within a minute once the server was mended", () => {
    const shift = new Shift([...many(20), "bad"], failsOver("bad"));
    shift.goesOn(HOUR_MS);
    shift.answer = () => null;
    shift.goesOn(60_000);
    expect([shift.waiting, shift.stuck]).toEqual([[], []]);
  });

  test("is not shown as stuck while the server fails at everything else, too", () => {
    const shift = new Shift(
      many(4),
      () => FAULT,
      () => FAULT,
    );
    shift.goesOn(HOUR_MS);
    expect(shift.stuck).toEqual([]);
    expect(shift.talk.state.stuck_entries.length).toBeGreaterThan(0);
  });
});

test("a server that was ill for an hour gets the whole queue in a few large batches once it is well", () => {
  const shift = new Shift(
    many(500),
    () => FAULT,
    () => FAULT,
  );
  shift.goesOn(HOUR_MS);
  const tries = shift.pushes.length;
  expect(tries).toBeLessThan(120);
  shift.answer = () => null;
  shift.others = () => null;
  shift.goesOn(60_000);
  expect(shift.waiting).toEqual([]);
  expect(shift.pushes.length - tries).toBeLessThan(15);
});

describe("an entry over which the server goes silent", () => {
  const silentOver = (bad: string, failure: Failure) => (sent: string[]) =>
    sent.includes(bad) ? failure : null;

  test.each<[string, Failure]>([
    ["the wire is cut", SILENCE],
    ["a proxy answers for it", { is: "unreachable", why: "gateway" }],
    ["it never answers", { is: "unreachable", why: "time" }],
    ["what comes is not its answer", { is: "not-our-server" }],
  ])("is found because all else is answered: %s", (_, failure) => {
    const shift = new Shift([...many(60), "bad"], silentOver("bad", failure));
    shift.goesOn(120_000);
    expect([shift.waiting, shift.stuck]).toEqual([["bad"], ["bad"]]);
  });

  test("is not suspected while there is no link at all", () => {
    const shift = new Shift(
      many(60),
      () => SILENCE,
      () => SILENCE,
    );
    shift.goesOn(HOUR_MS);
    expect([shift.talk.state.stuck_entries, shift.talk.state.batch_limit]).toEqual([[], 500]);
  });
});

test("on the phone it waits with its reason while all others are at the server, and goes once that was mended", async () => {
  const server = new FakeServer();
  const phone = new Phone(server).start();
  const entries = notes(anId(), 9);
  const bad = entries[4]?.id ?? "";
  server.fails_over.add(bad);
  await phone.store.append(entries);
  const goesOn = async (promise: () => void | Promise<void>) =>
    eventually(() => {
      phone.ring();
      return promise();
    });
  await goesOn(async () => {
    expect(server.arrived.size).toBe(8);
    expect((await phone.store.waiting()).entries).toMatchObject([
      { id: bad, state: "waiting", reason: null },
    ]);
    expect(phone.sender.status.peek().stuck).toMatchObject([{ id: bad, failure: { code: "server-fault" } }]);
  });
  const later = aNote(anId());
  await phone.store.append([later]);
  await goesOn(() => expect(server.arrived.has(later.id)).toBe(true));
  server.fails_over.clear();
  await phone.settles();
  expect(server.arrived.has(bad)).toBe(true);
  expect(phone.sender.status.peek().stuck).toEqual([]);
});
