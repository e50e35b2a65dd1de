// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { aBlob, problem, SILENCE, success, Talk } from "../../tests/support/talk";
import type { Event, Outcome } from "./state";

describe("nothing to say", () => {
  test("it looks for a new book, pulls once, and rests", () => {
    const talk = new Talk().start();
    expect(talk.step).toEqual({ do: "refresh" });
    expect(talk.comesBack({ of: "refresh" }).step).toMatchObject({ do: "pull" });
    expect(talk.comesBack({ of: "pull", more: false }).step).toBeNull();
  });

  test("an open screen looks again after a minute and hears news meanwhile", () => {
    const talk = new Talk().start().allGoesWell();
    expect([talk.listening, talk.until]).toEqual([true, talk.now + 60_000]);
    expect(talk.rings().step).toMatchObject({ do: "pull" });
  });

  test("a hidden screen sets no timer and hears no news", () => {
    const talk = new Talk().start().allGoesWell().hear({ is: "hidden" });
    expect([talk.listening, talk.until]).toEqual([false, null]);
  });

  test("a phone where nobody is signed in asks for nothing", () => {
    const talk = new Talk().hear({ is: "started", signed_in: false, visible: true });
    expect([talk.step, talk.until]).toEqual([null, null]);
    expect(talk.hear({ is: "woke", why: "entry" }).step).toBeNull();
    expect(talk.hear({ is: "signed-in" }).step).not.toBeNull();
  });
});

describe("the phone is ahead", () => {
  test("readings go before the book, the pull and the photos", () => {
    const talk = new Talk().start({ entries: 3, blobs: 1, blob: aBlob() });
    expect(talk.step).toEqual({ do: "push", limit: 500 });
  });

  test("a reading made between two photos goes before the second", () => {
    const talk = new Talk().start().allGoesWell();
    talk.queue = { ...talk.queue, blobs: 2, blob: aBlob() };
    expect(talk.hear({ is: "woke", why: "entry" }).step).toMatchObject({ do: "put-piece", from: 0 });
    talk.comesBack(success({ do: "put-piece", blob: aBlob(), from: 0, piece_bytes: 1 }), {
      entries: 1,
      blobs: 1,
    });
    expect(talk.step).toMatchObject({ do: "push" });
  });

  test("an entry made during a step is sent right after it", () => {
    const talk = new Talk().start();
    talk.queue = { ...talk.queue, entries: 1 };
    expect(talk.hear({ is: "woke", why: "entry" }).step).toBeNull();
    expect(
      talk.hear({ is: "outcome", turn: talk.state.turn, outcome: { of: "refresh" } }).step,
    ).toMatchObject({
      do: "push",
    });
  });

  test("cards are compared when all is sent", () => {
    const talk = new Talk().start({ entries: 1 });
    talk
      .comesBack({ of: "push", sent: 1, settled: 1 }, { compare: ["c"] })
      .comesBack({ of: "refresh" }, { compare: ["c"] });
    talk.comesBack({ of: "pull", more: false }, { compare: ["c"] });
    expect(talk.step).toEqual({ do: "compare", card: "c", unlike: "look-again" });
  });
});

describe("the desk is ahead", () => {
  test("it pulls page after page until there is no more", () => {
    const talk = new Talk().start().comesBack({ of: "refresh" });
    expect(talk.comesBack({ of: "pull", more: true }).step).toMatchObject({ do: "pull" });
    expect(talk.comesBack({ of: "pull", more: false }).step).toBeNull();
  });

  test("news during a pull lead to another pull", () => {
    const talk = new Talk().start().allGoesWell();
    expect(talk.hear({ is: "woke", why: "news" }).step).toMatchObject({ do: "pull" });
  });

  test("checklists that a pulled card names are fetched", () => {
    const name = { id: "tyres", version: 2 };
    const talk = new Talk()
      .start()
      .comesBack({ of: "refresh" })
      .comesBack({ of: "pull", more: false }, { wanted: [name] });
    expect(talk.step).toEqual({ do: "fetch-checklist", name });
  });

  test("news that break off are asked for again only with the next pull that works", () => {
    const talk = new Talk().start().allGoesWell().hear({ is: "news-lost" });
    expect(talk.state.listening).toBe(false);
    expect(talk.rings().allGoesWell().state.listening).toBe(true);
  });
});

describe("no answer", () => {
  test("the tries grow rarer up to a minute, and start afresh when something moved", () => {
    const talk = new Talk().start({ entries: 1 });
    const delays: number[] = [];
    for (let tries = 0; tries < 9; tries += 1) {
      talk.fails();
      delays.push((talk.until ?? 0) - talk.now);
      talk.rings();
    }
    expect(delays).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 60_000, 60_000, 60_000]);
    talk.comesBack({ of: "push", sent: 2, settled: 1 }, { entries: 1 }).fails();
    expect((talk.until ?? 0) - talk.now).toBe(1_000);
  });

  test("two phones do not try in step: half of each delay is thrown with dice", () => {
    const talk = new Talk();
    talk.dice = 0;
    talk.start({ entries: 1 }).fails();
    expect((talk.until ?? 0) - talk.now).toBe(500);
  });

  test("the server's wish to be left alone is heeded", () => {
    const talk = new Talk().start({ entries: 1 }).fails(problem(429, 30), 1);
    expect((talk.until ?? 0) - talk.now).toBe(30_000);
  });

  test("coming back to the app tries at once", () => {
    const talk = new Talk().start({ entries: 1 }).fails();
    expect(talk.hear({ is: "woke", why: "focus" }).step).toMatchObject({ do: "push" });
  });

  test("taps in quick succession do not each become a request", () => {
    const talk = new Talk().start({ entries: 1 }).fails();
    talk.now += 500;
    expect(talk.hear({ is: "woke", why: "entry" }).step).toBeNull();
    talk.now += 2_000;
    expect(talk.hear({ is: "woke", why: "entry" }).step).toMatchObject({ do: "push" });
  });

  test("a hidden phone with unsent work goes on trying", () => {
    const talk = new Talk().start({ entries: 1 }).fails().hear({ is: "hidden" });
    expect(talk.until).not.toBeNull();
  });

  test("a step that never comes back is given up, and its late outcome counts no more", () => {
    const talk = new Talk().start({ entries: 1 });
    const late = talk.state.turn;
    expect(talk.rings().step).toMatchObject({ do: "push" });
    talk.queue = { ...talk.queue, entries: 0 };
    expect(
      talk.hear({ is: "outcome", turn: late, outcome: { of: "push", sent: 1, settled: 1 } }).step,
    ).toBeNull();
    expect(talk.state.doing).not.toBeNull();
  });

  test("an answer that names none of the ids sent is no success", () => {
    const talk = new Talk()
      .start({ entries: 1 })
      .comesBack({ of: "push", sent: 1, settled: 0 }, { entries: 1 });
    expect(talk.step).toBeNull();
    expect(talk.state.problem).toEqual({ is: "not-our-server" });
  });
});

describe("the server asks who we are", () => {
  test("the queue stays and nothing is tried until somebody has signed in", () => {
    const talk = new Talk().start({ entries: 2 }).fails(problem(401), 2);
    expect([talk.step, talk.until, talk.state.sign_in_needed]).toEqual([null, null, true]);
    expect(talk.hear({ is: "woke", why: "focus" }).step).toBeNull();
    expect(talk.hear({ is: "signed-in" }).step).toMatchObject({ do: "push" });
  });

  test("an outcome that comes in after signing out changes nothing", () => {
    const talk = new Talk().start({ entries: 1 });
    const turn = talk.state.turn;
    talk.hear({ is: "signed-out" });
    expect(talk.hear({ is: "outcome", turn, outcome: { of: "push", sent: 1, settled: 1 } }).step).toBeNull();
  });
});

describe("a batch the server cannot take", () => {
  test("is halved until the one entry that cannot be read is set aside, and then grows again", () => {
    const talk = new Talk().start({ entries: 4 });
    expect(talk.fails(problem(413), 4).step).toEqual({ do: "push", limit: 2 });
    expect(talk.fails(problem(413), 2).step).toEqual({ do: "push", limit: 1 });
    expect(talk.fails(problem(413), 1).step).toMatchObject({ do: "set-aside", failure: { status: 413 } });
    expect(talk.comesBack({ of: "set-aside" }, { entries: 3 }).step).toEqual({ do: "push", limit: 1 });
    expect(talk.comesBack({ of: "push", sent: 1, settled: 1 }, { entries: 2 }).step).toEqual({
      do: "push",
      limit: 2,
    });
  });
});

describe("photos", () => {
  const waiting = (change = {}) => ({ blobs: 1, blob: aBlob(change) });
  const ready = (change = {}) =>
    new Talk().start().comesBack({ of: "refresh" }).comesBack({ of: "pull", more: false }, waiting(change));

  test("a fresh one is sent from its start without asking", () => {
    expect(ready().step).toMatchObject({ do: "put-piece", from: 0 });
  });

  test("one that was begun before the app was killed is asked for first, and goes on from there", () => {
    const talk = ready({ held: 100 });
    expect(talk.step).toMatchObject({ do: "ask-offset" });
    talk.comesBack({ of: "asked", sha256: "ab" }, waiting({ held: 90 }));
    expect(talk.step).toMatchObject({ do: "put-piece", from: 90 });
  });

  test("pieces grow while all goes well and shrink when the link breaks", () => {
    const talk = ready();
    const size = () => (talk.step?.do === "put-piece" ? talk.step.piece_bytes : 0);
    const before = size();
    talk.comesBack(
      { of: "held", sha256: "ab", bytes: 9, moved: true, complete: false },
      waiting({ held: 9 }),
    );
    expect(size()).toBe(before * 2);
    talk.fails().rings();
    talk.comesBack({ of: "pull", more: false }, waiting({ held: 9 }));
    expect(talk.step).toMatchObject({ do: "ask-offset" });
    talk.comesBack({ of: "asked", sha256: "ab" }, waiting({ held: 9 }));
    expect(size()).toBe(before);
  });

  test("a first piece that was cut is asked after, as some of it may have arrived", () => {
    const talk = ready();
    talk.fails().rings().comesBack({ of: "pull", more: false }, waiting());
    expect(talk.step).toMatchObject({ do: "ask-offset" });
  });

  test("an offset that never moves leads to rarer tries, not to a busy loop", () => {
    const talk = ready({ held: 0 });
    talk.comesBack({ of: "held", sha256: "ab", bytes: 0, moved: false, complete: false }, waiting());
    expect(talk.step).toBeNull();
    expect(talk.until).toBe(talk.now + 1_000);
  });
});

describe("the server was restored from yesterday", () => {
  test("everything is pulled again and each card compared; what differs twice is offered again", () => {
    const talk = new Talk().start().comesBack({ of: "new-server" }, { compare: ["c"] });
    const looks: string[] = [];
    for (let round = 0; round < 4; round += 1) {
      expect(talk.step).toMatchObject({ do: "pull" });
      talk.comesBack({ of: "pull", more: false }, { compare: ["c"] });
      if (talk.step?.do === "compare") looks.push(talk.step.unlike);
      talk.comesBack({ of: "compare", card: "c", agrees: false }, { compare: round < 3 ? ["c"] : [] });
    }
    expect(looks).toEqual(["look-again", "offer-again", "pull-all", "give-up"]);
    expect([talk.step, talk.state.out_of_step]).toEqual([null, ["c"]]);
  });

  test("a card that agrees later is no longer called out of step", () => {
    const talk = new Talk().start().allGoesWell();
    talk.state = { ...talk.state, out_of_step: ["c"] };
    talk.queue = { ...talk.queue, compare: ["c"] };
    talk.hear({ is: "woke", why: "entry" }).comesBack({ of: "compare", card: "c", agrees: true });
    expect(talk.state.out_of_step).toEqual([]);
  });
});

describe("laws", () => {
  const event: fc.Arbitrary<Event> = fc.oneof(
    fc.constantFrom<Event>(
      { is: "hidden" },
      { is: "news-lost" },
      { is: "signed-in" },
      { is: "signed-out" },
      { is: "started", signed_in: true, visible: true },
    ),
    fc
      .constantFrom("entry", "timer", "focus", "online", "asked", "news")
      .map((why): Event => ({ is: "woke", why: why as "entry" })),
  );
  const outcome: fc.Arbitrary<Outcome> = fc.oneof(
    fc.constantFrom<Outcome>({ of: "new-server" }, { of: "refresh" }, { of: "pull", more: true }),
    fc
      .constantFrom(SILENCE, problem(401), problem(413), problem(500))
      .map((failure): Outcome => ({ of: "failed", failure, sent: 4, first: "e0" })),
    fc
      .constantFrom("e0", "e1", "e2")
      .map((first): Outcome => ({ of: "failed", failure: problem(500), sent: 1, first })),
  );
  const happening = fc.record({
    event,
    outcome,
    answers: fc.boolean(),
    entries: fc.nat(3),
    ms: fc.nat(100_000),
  });

  test("whatever happens, unsent work of a signed-in person has a step under way or a time for the next try", () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 40 }), (story) => {
        const talk = new Talk().start();
        for (const { event, outcome, answers, entries, ms } of story) {
          talk.now += ms;
          talk.queue = { ...talk.queue, entries, entry_ids: ["e0", "e1", "e2"].slice(0, entries) };
          talk.hear(answers && talk.state.doing ? { is: "outcome", turn: talk.state.turn, outcome } : event);
          const { signed_in, sign_in_needed, doing } = talk.state;
          if (entries === 0 || !signed_in || sign_in_needed) continue;
          expect(talk.until).not.toBeNull();
          expect(doing !== null || (talk.until ?? 0) <= talk.now + 60_000).toBe(true);
        }
      }),
    );
  });

  test("never two steps at a time", () => {
    fc.assert(
      fc.property(fc.array(event, { maxLength: 30 }), (events) => {
        const talk = new Talk().start({ entries: 1 });
        for (const one of events) {
          const busy = talk.state.doing !== null;
          talk.hear(one);
          if (busy && one.is !== "signed-out" && talk.state.doing !== null) expect(talk.step).toBeNull();
        }
      }),
    );
  });
});
