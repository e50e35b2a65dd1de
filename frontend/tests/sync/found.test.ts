// @vitest-environment node
/** Conversations that the fleet simulator found, each told once in a few lines. */
import { describe, expect, test } from "vitest";
import { eventually } from "../support/eventually";
import { StoreError } from "../../src/store/errors";
import { kept } from "../../src/sync/kept-signals";
import { Sender } from "../../src/sync/sender";
import { makeApi } from "../../src/api/api";
import { anId, aNote } from "../support/entries";
import { Phone } from "../support/phones";
import { FakeServer } from "../support/server";
import { statusOf } from "../../src/sync/status-of";
import { aStore } from "../support/stores";
import { Talk } from "../support/talk";

describe("a phone whose store fails for a moment", () => {
  test("has not forgotten that somebody signed in meanwhile", async () => {
    const server = new FakeServer();
    const store = aStore();
    let broken = 0;
    const queue = () => (broken-- > 0 ? Promise.reject(new StoreError("lost", null)) : store.queue());
    const sender = new Sender({
      store: { ...store, queue },
      api: makeApi(server.wire),
      now: () => 1_000,
      dice: () => 0.5,
      timer: () => () => undefined,
      link: () => null,
      listen: () => () => undefined,
    });
    server.faults = ["signed-out"];
    await store.append([aNote(anId())]);
    sender.tell({ is: "started", signed_in: true, visible: true });
    await eventually(() => expect(sender.status.peek().phase).toBe("sign-in-needed"));
    broken = 1;
    sender.tell({ is: "signed-in" });
    await eventually(() => expect(sender.status.peek().problem).toMatchObject({ is: "store" }));
    sender.tell({ is: "woke", why: "entry" });
    await eventually(() => expect(server.arrived.size).toBe(1));
  });
});

describe("an app that starts", () => {
  test("does not show everything as sent before it has looked at what waits", async () => {
    const store = aStore();
    await store.append([aNote(anId())]);
    let look: () => void = () => undefined;
    const looked = new Promise<void>((resolve) => (look = resolve));
    const signals = kept({ ...store, waiting: () => looked.then(() => store.waiting()) });
    await store.me();
    await new Promise((resolve) => setTimeout(resolve, 5));
    expect(signals.me.peek()).toBeUndefined();
    look();
    await eventually(() => expect(signals.me.peek()).toBeNull());
    expect(signals.waiting.peek().entries).toHaveLength(1);
  });
});

describe("a clock that is put back by a day", () => {
  test("does not put off the next try by a day", () => {
    const talk = new Talk().start({ entries: 1 }).fails();
    talk.now -= 86_400_000;
    talk.hear({ is: "woke", why: "timer" });
    expect(talk.step).toMatchObject({ do: "push" });
  });

  test("lets the timer ring within a minute", () => {
    const talk = new Talk().start({ entries: 1 }).fails();
    talk.now -= 86_400_000;
    talk.hear({ is: "woke", why: "news" });
    expect((talk.until ?? 0) - talk.now).toBeLessThanOrEqual(90_000);
  });

  test("is told of when it is more than two minutes off the server's, and no longer once it is right", () => {
    const talk = new Talk().start().comesBack({ of: "refresh", server_ms: 1_000_000 - 130_000 });
    expect(statusOf(talk.state, talk).clock_off_ms).toBe(130_000);
    talk.hear({ is: "woke", why: "asked" }).comesBack({ of: "pull", more: false });
    talk.comesBack({ of: "refresh", server_ms: 1_000_000 - 30_000 });
    expect(statusOf(talk.state, talk).clock_off_ms).toBeNull();
  });

  test("does not keep a step for ever that never came back", () => {
    const talk = new Talk().start({ entries: 1 });
    talk.now -= 86_400_000;
    talk.hear({ is: "woke", why: "news" });
    expect(talk.state.turn).toBeGreaterThan(1);
  });
});

describe("a card on which phone and server did not agree", () => {
  test("is compared again whenever there may be news, and is no longer told of once they agree", () => {
    const talk = new Talk().start({ compare: ["c"] });
    for (let steps = 0; talk.step !== null; steps += 1) {
      expect(steps).toBeLessThan(20);
      const { step } = talk;
      if (step.do === "compare") talk.comesBack({ of: "compare", card: "c", agrees: false }, talk.queue);
      else talk.comesBack(step.do === "pull" ? { of: "pull", more: false } : { of: "refresh" }, talk.queue);
    }
    expect(talk.state.out_of_step).toEqual(["c"]);
    talk.hear({ is: "woke", why: "news" });
    talk.comesBack({ of: "pull", more: false }, talk.queue);
    expect(talk.step).toMatchObject({ do: "compare", card: "c", unlike: "give-up" });
    talk.comesBack({ of: "compare", card: "c", agrees: false }, talk.queue);
    expect([talk.step, talk.state.out_of_step]).toEqual([null, ["c"]]);
    talk.rings();
    talk.comesBack({ of: "pull", more: false }, talk.queue);
    talk.comesBack({ of: "compare", card: "c", agrees: true });
    expect([talk.step, talk.state.out_of_step]).toEqual([null, []]);
  });

  test("is still to be compared after the app was killed", async () => {
    const server = new FakeServer();
    const phone = new Phone(server).start();
    const [mine, theirs] = [aNote(anId()), aNote(anId())];
    await phone.store.append([mine]);
    await phone.settles();
    await phone.store.keepPage([{ ...theirs, card: mine.card, arrival: 900 }], 900);
    await phone.store.append([{ ...aNote(mine.card) }]);
    await eventually(() => {
      phone.ring();
      expect(phone.sender.status.peek().out_of_step).toEqual([mine.card]);
    });
    phone.killed();
    expect(phone.sender.status.peek().out_of_step).toEqual([]);
    await eventually(() => {
      phone.ring();
      expect(phone.sender.status.peek().out_of_step).toEqual([mine.card]);
    });
    server.take({ ...theirs, card: mine.card });
    await phone.settles();
    expect(phone.sender.status.peek().out_of_step).toEqual([]);
  });
});
