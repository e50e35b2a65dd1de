// @vitest-environment node
import { describe, expect, test } from "vitest";
import { aNote, anId, notes } from "../../tests/support/entries";
import { FakeServer } from "../../tests/support/server";
import { digestInOrder } from "../journal/digest";
import { makeApi } from "./api";
import type { Wire } from "./wire";

const server = { instance: "server-1", epoch: 3 };
const json = (body: unknown, status = 200, type = "application/json") =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
const answering =
  (answer: () => Response | Promise<Response>): Wire =>
  async () =>
    answer();
const ping = { server, time: "t", formats: [1], book: "b", app: "1" };

describe("an answer", () => {
  test("that names our server and has the right shape is taken", async () => {
    const answer = await makeApi(answering(() => json(ping))).ping();
    const value = { time: "t", formats: [1], book: "b", app: "1", certificate_days: null };
    expect(answer).toEqual({ is: "ok", server, value });
  });

  test.each<[string, () => Response]>([
    ["a login page", () => new Response("<h1>Welcome</h1>", { headers: { "Content-Type": "text/html" } })],
    [
      "a page that calls itself JSON",
      () => new Response("<h1>", { headers: { "Content-Type": "application/json" } }),
    ],
    ["JSON that names no server", () => json({ ...ping, server: undefined })],
    ["JSON that names the server only in part", () => json({ ...ping, server: { instance: "x" } })],
    ["JSON of another shape", () => json({ server, hello: 1 })],
    ["a bare list", () => json([1, 2])],
    ["a portal's own refusal", () => new Response("no", { status: 403 })],
    ["another server's refusal in JSON", () => json({ code: "no-such-route", message: "No." }, 404)],
    ["another server's wish to know who asks", () => json({ code: "login", title: "Who?" }, 401)],
  ])("that is %s is not our server's", async (_, answer) => {
    expect(await makeApi(answering(answer)).ping()).toEqual({ is: "not-our-server" });
  });

  test("with a problem says what is wrong and what to do", async () => {
    const body = { server, code: "card-changed", title: "Changed.", do: "Look again.", count: 7 };
    const api = makeApi(answering(() => json(body, 409, "application/problem+json")));
    const answer = await api.digest("c");
    expect(answer).toMatchObject({ is: "problem", status: 409, code: "card-changed", do: "Look again." });
    expect(answer).toMatchObject({ details: { count: 7 } });
  });

  test("of a gateway whose server is down counts as no answer", async () => {
    const api = makeApi(answering(() => new Response("bad gateway", { status: 502 })));
    expect(await api.ping()).toEqual({ is: "unreachable", why: "gateway" });
  });

  test("that never comes is given up", async () => {
    const cut: Wire = () => Promise.reject(new TypeError("failed to fetch"));
    expect(await makeApi(cut).ping()).toEqual({ is: "unreachable", why: "network" });
  });

  describe("to a push", () => {
    const sent = notes(anId(), 3);
    const ids = digestInOrder(sent.map(({ id }) => id));
    const kept = (count: number) => ({ count, outcome: "kept", arrival: 7 });
    const pushed = (answer: Record<string, unknown>) =>
      makeApi(answering(() => json({ server, ...answer }))).push(sent);

    test("tells the outcome of each entry by runs, in the order they were sent", async () => {
      const [a, b, c] = sent.map(({ id }) => id);
      const why = { outcome: "refused", code: "no", title: "No.", do: "Ask." };
      const results = [kept(1), { count: 1, ...why }, { ...kept(1), outcome: "already-kept" }];
      expect(await pushed({ ids, results })).toMatchObject({
        value: [
          { id: a, outcome: "kept" },
          { id: b, ...why },
          { id: c, outcome: "kept" },
        ],
      });
    });

    test.each<[string, Record<string, unknown>]>([
      ["an outcome we do not know", { ids, results: [{ count: 3, outcome: "perhaps" }] }],
      ["fewer outcomes than entries", { ids, results: [kept(2)] }],
      ["more outcomes than entries", { ids, results: [kept(4)] }],
      ["runs of no length", { ids, results: [kept(0), kept(3)] }],
      ["runs that go backwards", { ids, results: [kept(4), kept(-1)] }],
      ["no ids", { results: [kept(3)] }],
      ["other entries", { ids: digestInOrder([anId(), anId(), anId()]), results: [kept(3)] }],
      [
        "the same entries in another order",
        { ids: digestInOrder(sent.map(({ id }) => id).reverse()), results: [kept(3)] },
      ],
    ])("that tells of %s lets go of nothing", async (_, answer) => {
      expect(await pushed(answer)).toEqual({ is: "not-our-server" });
    });
  });

  test("that nothing is new is taken only from our server", async () => {
    const headers = { "X-Baycard-Server": "server-1;3" };
    const empty = makeApi(answering(() => new Response(null, { status: 204, headers })));
    expect(await empty.pull(7, 10)).toEqual({
      is: "ok",
      server,
      value: { entries: [], cursor: 7, more: false },
    });
    const portal = makeApi(answering(() => new Response(null, { status: 204 })));
    expect(await portal.pull(7, 10)).toEqual({ is: "not-our-server" });
  });

  test("with entries that have no place in the order of arrival is not taken", async () => {
    const api = makeApi(answering(() => json({ server, entries: [aNote(anId())], cursor: 1, more: false })));
    expect(await api.pull(0, 10)).toEqual({ is: "not-our-server" });
  });
});

describe("a request", () => {
  const sent = async (act: (wire: Wire) => Promise<unknown>) => {
    const seen: { url: string; init: RequestInit }[] = [];
    await act(async (url, init) => {
      seen.push({ url, init });
      return json({});
    });
    const [only] = seen;
    if (only === undefined) throw new Error("nothing was sent");
    return { ...only, headers: new Headers(only.init.headers) };
  };

  test("says that it comes from the app and follows no redirect", async () => {
    const { headers, init } = await sent((wire) => makeApi(wire).ping());
    expect([headers.get("X-Baycard"), init.redirect, init.credentials]).toEqual([
      "1",
      "error",
      "same-origin",
    ]);
  });

  test("of some length is compressed, and the server reads the same", async () => {
    const { headers } = await sent((wire) => makeApi(wire).push(notes(anId(), 20)));
    expect(headers.get("Content-Encoding")).toBe("gzip");
    const real = new FakeServer();
    const entries = notes(anId(), 20);
    await makeApi(real.wire).push(entries);
    expect([...real.arrived.values()]).toMatchObject(entries);
  });

  test("that is short goes as it is", async () => {
    const { headers } = await sent((wire) => makeApi(wire).push([aNote(anId())]));
    expect(headers.get("Content-Encoding")).toBeNull();
  });
});

describe("a photo", () => {
  const piece = {
    sha256: "ab",
    mime: "image/jpeg",
    from: 0,
    whole_bytes: 4,
    bytes: new ArrayBuffer(4),
    of: null,
  };
  const named = { "X-Baycard-Server": "server-1;3" };

  test("is believed to be whole only when JSON that names our server says so", async () => {
    expect(await makeApi(answering(() => json({ server }, 201))).putPiece(piece)).toMatchObject({
      value: { complete: true },
    });
    expect(await makeApi(answering(() => json({}, 200))).putPiece(piece)).toEqual({ is: "not-our-server" });
    expect(await makeApi(answering(() => new Response("ok"))).putPiece(piece)).toEqual({
      is: "not-our-server",
    });
  });

  test("goes on from where the server says, in part and at a wrong offset", async () => {
    for (const status of [204, 409]) {
      const headers = { ...named, "Upload-Offset": "2", "Upload-Complete": "?0" };
      const api = makeApi(answering(() => new Response(null, { status, headers })));
      expect(await api.putPiece(piece)).toMatchObject({ is: "ok", value: { bytes: 2, complete: false } });
    }
  });

  test("of which nothing is held starts at nothing, if our server says so", async () => {
    const gone = (headers: Record<string, string>) =>
      makeApi(answering(() => new Response(null, { status: 404, headers }))).askOffset("ab");
    expect(await gone(named)).toMatchObject({ is: "ok", value: { bytes: 0, complete: false } });
    expect(await gone({})).toEqual({ is: "not-our-server" });
  });
});
