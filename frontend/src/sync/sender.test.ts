// @vitest-environment node
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eventually } from "../../tests/support/eventually";
import { anId, aNote, aPhoto, notes } from "../../tests/support/entries";
import { Phone } from "../../tests/support/phones";
import { StoreError } from "../store/errors";
import { FakeServer, type Fault } from "../../tests/support/server";

function both(): { server: FakeServer; phone: Phone } {
  const server = new FakeServer();
  return { server, phone: new Phone(server).start() };
}

const photo = (fill: number, size = 2_000) => ({
  sha256: `${fill}`.padStart(64, "0"),
  mime: "image/jpeg",
  bytes: new Uint8Array(size).fill(fill).buffer,
});

describe("sending", () => {
  test("an entry made on the phone is at the server, and its line is gone", async () => {
    const { server, phone } = both();
    const entry = aNote(anId());
    await phone.store.append([entry]);
    await phone.settles();
    expect(server.arrived.get(entry.id)).toMatchObject(entry);
    expect(phone.sender.status.peek()).toMatchObject({ phase: "idle", entries: 0, problem: null });
  });

  test("an answer lost after the commit does not make a second entry", async () => {
    const { server, phone } = both();
    await phone.settles();
    server.faults = ["cut-after"];
    const entry = aNote(anId());
    await phone.store.append([entry]);
    await phone.settles();
    expect(server.requests.filter((one) => one.includes("push"))).toHaveLength(2);
    expect([...server.arrived.keys()]).toEqual([entry.id]);
  });

  test("a login page that says 200 is not taken for our server", async () => {
    const { server, phone } = both();
    await phone.settles();
    server.faults = ["portal"];
    await phone.store.append([aNote(anId())]);
    await phone.shows("waiting");
    expect(phone.sender.status.peek()).toMatchObject({ entries: 1, problem: { is: "not-our-server" } });
    await phone.settles();
    expect(server.arrived.size).toBe(1);
  });

  test("one entry the server will always refuse does not hold up the others, and stays with its reason", async () => {
    const { server, phone } = both();
    const entries = notes(anId(), 3);
    const bad = entries[1]?.id ?? "";
    server.refuses.add(bad);
    await phone.store.append(entries);
    await phone.settles();
    expect(server.arrived.size).toBe(2);
    expect((await phone.store.waiting()).entries).toMatchObject([
      { id: bad, state: "refused", reason: { title: "No." } },
    ]);
  });

  test("a session that has run out keeps the queue until somebody has signed in again", async () => {
    const { server, phone } = both();
    await phone.settles();
    server.faults = ["signed-out"];
    await phone.store.append([aNote(anId())]);
    await phone.shows("sign-in-needed");
    expect(phone.sender.status.peek().entries).toBe(1);
    phone.sender.tell({ is: "signed-in" });
    await phone.settles();
    expect(server.arrived.size).toBe(1);
  });

  test("what was kept before the app was killed is sent by the next one", async () => {
    const { server, phone } = both();
    server.faults = Array<Fault>(3).fill("cut-before");
    await phone.store.append([aNote(anId())]);
    phone.killed();
    await phone.settles();
    expect(server.arrived.size).toBe(1);
  });
});

describe("photos", () => {
  test("one that was cut goes on where the server stopped, and is not forgotten before it is whole", async () => {
    const { server, phone } = both();
    await phone.settles();
    const large = photo(7, 700_000);
    server.befalls = (request) => (request.startsWith("PUT") ? "cut-half" : null);
    await phone.store.appendWithBlob(aNote(anId()), large);
    await phone.settles();
    expect(server.blobs.get(large.sha256)).toEqual(new Uint8Array(large.bytes));
    expect((await phone.store.waiting()).blobs).toEqual([]);
  });

  test("a whole photo whose confirmation was lost is confirmed by asking, not by sending all of it again", async () => {
    const { server, phone } = both();
    await phone.settles();
    const small = photo(8);
    server.befalls = (request) => (request.startsWith("PUT") ? "cut-after" : null);
    await phone.store.appendWithBlob(aNote(anId()), small);
    await phone.settles();
    expect(server.requests.filter((one) => one.startsWith("PUT") || one.startsWith("HEAD"))).toHaveLength(3);
    expect(server.whole.has(small.sha256)).toBe(true);
  });
});

describe("receiving", () => {
  test("what others made is on the phone", async () => {
    const server = new FakeServer();
    const entry = aNote(anId());
    server.take(entry);
    const phone = new Phone(server).start();
    await phone.settles();
    expect(await phone.store.entriesOf(entry.card)).toMatchObject([entry]);
  });

  test("a checklist version that a card names comes along", async () => {
    const server = new FakeServer();
    const chosen = { ...aNote(anId()), slot: "card/checklist/tyres", kind: "checklist-chosen" as const };
    server.take({ ...chosen, body: { version: 3, sha256: "" } });
    server.checklists.set("tyres/3", { id: "tyres", version: 3, checks: [] });
    const phone = new Phone(server).start();
    await phone.settles();
    expect(await phone.store.checklist("tyres", 3)).toMatchObject({ id: "tyres", version: 3 });
  });

  test("the book is fetched once and again only when it changed", async () => {
    const { server, phone } = both();
    await phone.settles();
    phone.sender.tell({ is: "woke", why: "asked" });
    await phone.settles();
    expect(server.requests.filter((one) => one.startsWith("GET /api/book"))).toHaveLength(1);
    expect(await phone.store.book()).toMatchObject({ sha256: "book-1" });
  });

  test("the book comes anew in the language that is spoken now", async () => {
    const { server, phone } = both();
    await phone.settles();
    phone.language = "de";
    phone.sender.tell({ is: "woke", why: "asked" });
    await phone.settles();
    phone.sender.tell({ is: "woke", why: "asked" });
    await phone.settles();
    expect(await phone.store.book()).toMatchObject({ sha256: "book-1", language: "de" });
    expect(server.requests.filter((one) => one.startsWith("GET /api/book"))).toHaveLength(2);
  });
});

describe("a server restored from yesterday", () => {
  test("gets back what this phone had sent since, entries and photos", async () => {
    const { server, phone } = both();
    const [old, fresh] = [aNote(anId()), aPhoto(anId(), photo(3))];
    await phone.store.append([old]);
    await phone.store.appendWithBlob(fresh, photo(3));
    await phone.settles();
    server.restore((entry) => entry.id === old.id);
    phone.sender.tell({ is: "woke", why: "focus" });
    await phone.settles();
    expect([...server.arrived.keys()].sort()).toEqual([old.id, fresh.id]);
    expect(server.whole).toEqual(new Set([photo(3).sha256]));
    expect(phone.sender.status.peek().out_of_step).toEqual([]);
  });

  test("by copying files, without a word, gets it back as well once its numbers are found to have fallen", async () => {
    const { server, phone } = both();
    const card = anId();
    await phone.store.append(notes(card, 3));
    await phone.store.appendWithBlob(aPhoto(card, photo(3)), photo(3));
    await phone.settles();
    server.restoreInSecret(() => false);
    phone.sender.tell({ is: "woke", why: "focus" });
    await phone.settles();
    expect([server.arrived.size, server.whole.size]).toEqual([4, 1]);
  });

  test("hands out what came in since under numbers that the phone had already passed", async () => {
    const { server, phone } = both();
    const card = anId();
    for (const entry of notes(card, 3)) server.take(entry);
    await phone.settles();
    server.restore(() => false);
    const fresh = aNote(card);
    server.take(fresh);
    phone.sender.tell({ is: "woke", why: "news" });
    await eventually(async () => {
      const ids = (await phone.store.entriesOf(card)).map((entry) => entry.id);
      expect(ids).toContain(fresh.id);
    });
  });
});

test("a phone whose own store fails says so, and goes on by itself once it is well", async () => {
  const { server, phone } = both();
  await phone.settles();
  const queue = phone.store.queue;
  phone.store.queue = () => Promise.reject(new StoreError("lost", null));
  await phone.store.append([aNote(anId())]);
  await eventually(() => expect(phone.sender.status.peek().problem).toEqual({ is: "store", fault: "lost" }));
  phone.store.queue = queue;
  await phone.settles();
  expect([server.arrived.size, phone.sender.status.peek().problem]).toEqual([1, null]);
});

test("under any run of faults and kills, each kept entry and photo is at the server once, and both sides agree", async () => {
  const fault = fc.constantFrom<Fault>("cut-before", "cut-after", "portal", "busy", "too-large");
  const act = fc.record({
    faults: fc.array(fault, { maxLength: 4 }),
    make: fc.nat(3),
    photo: fc.boolean(),
    kill: fc.boolean(),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 5 }), async (story) => {
      const { server, phone } = both();
      const made: string[] = [];
      const card = anId();
      for (const [place, { faults, make, photo: shoots, kill }] of story.entries()) {
        server.faults.push(...faults);
        const entries = notes(card, make);
        await phone.store.append(entries);
        made.push(...entries.map((entry) => entry.id));
        if (shoots) {
          const entry = aNote(card);
          await phone.store.appendWithBlob(entry, photo(place + 1));
          made.push(entry.id);
        }
        if (kill) phone.killed();
        phone.ring();
      }
      server.take(aNote(card));
      await phone.settles();
      phone.sender.tell({ is: "woke", why: "focus" });
      await phone.settles();
      const sent = [...server.arrived.keys()].sort();
      const refused = (await phone.store.waiting()).entries.map((line) => line.id);
      expect(
        sent
          .filter((id) => made.includes(id))
          .concat(refused)
          .sort(),
      ).toEqual([...made].sort());
      expect((await phone.store.entriesOf(card)).map((entry) => entry.id)).toEqual(
        sent.concat(refused).sort(),
      );
      expect(server.whole.size).toBe(server.blobs.size);
    }),
    { numRuns: 25 },
  );
}, 60_000);
