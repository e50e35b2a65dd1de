/** A server in a few lines, behind a wire that can be cut: what the sender talks to in its tests. */
import type { Entry } from "../../src/journal/types";
import { digest, digestInOrder } from "../../src/journal/digest";
import type { Wire } from "../../src/api/wire";

/** `cut-half`: half of a photo's bytes arrive. `cut-after`: all was done, only the answer is lost. */
export type Fault = "cut-before" | "cut-half" | "cut-after" | "portal" | "busy" | "signed-out" | "too-large";

export class FakeServer {
  instance = "server-1";
  epoch = 1;
  readonly arrived = new Map<string, Entry & { arrival: number }>();
  readonly blobs = new Map<string, Uint8Array>();
  readonly whole = new Set<string>();
  readonly refuses = new Set<string>();
  /** cards of other workshops: their photos it takes from nobody who is signed in now */
  readonly elsewhere = new Set<string>();
  /** over these it stumbles, and answers 500 for the whole batch */
  readonly fails_over = new Set<string>();
  readonly checklists = new Map<string, unknown>();
  book = { sha256: "book-1", checklists: [], units: {} };
  /** what befalls the next requests, in this order */
  faults: Fault[] = [];
  /** befalls the first request for which it gives a fault, once */
  befalls: (request: string) => Fault | null = () => null;
  requests: string[] = [];

  readonly wire: Wire = async (url, init) => {
    this.requests.push(`${init.method} ${url}`);
    const fault = this.#fault(`${init.method} ${url}`);
    if (fault === null) return this.#answer(url, init);
    if (fault === "cut-after") await this.#answer(url, init);
    if (fault === "cut-half") await this.#half(url, init);
    if (fault.startsWith("cut-")) throw new TypeError("the wire was cut");
    return this.#faulty(fault);
  };

  #fault(request: string): Fault | null {
    const chosen = this.befalls(request);
    if (chosen !== null) this.befalls = () => null;
    return chosen ?? this.faults.shift() ?? null;
  }

  async #half(url: string, init: RequestInit): Promise<void> {
    if (init.method !== "PUT") return;
    const bytes = await new Response(init.body ?? null).arrayBuffer();
    await this.#answer(url, { ...init, body: bytes.slice(0, bytes.byteLength / 2) });
  }

  /** Puts it back to an earlier state, as a restored backup would. */
  restore(kept: (entry: Entry) => boolean): void {
    for (const entry of this.arrived.values()) if (!kept(entry)) this.arrived.delete(entry.id);
    this.blobs.clear();
    this.whole.clear();
    this.epoch += 1;
  }

  /** The same by copying files, of which the server itself knows nothing. */
  restoreInSecret(kept: (entry: Entry) => boolean): void {
    this.restore(kept);
    this.epoch -= 1;
  }

  /** Something from another device. */
  take(entry: Entry): void {
    if (!this.arrived.has(entry.id)) this.arrived.set(entry.id, { ...entry, arrival: this.#next() });
  }

  #next(): number {
    return 1 + [...this.arrived.values()].reduce((most, entry) => Math.max(most, entry.arrival), 0);
  }

  #faulty(fault: Fault): Response {
    if (fault === "portal")
      return new Response("<h1>Welcome</h1>", { headers: { "Content-Type": "text/html" } });
    const status = { busy: 503, "signed-out": 401, "too-large": 413 }[fault as "busy"];
    return this.#json({ code: fault, title: fault, do: "" }, status, "application/problem+json");
  }

  #json(body: Record<string, unknown>, status = 200, type = "application/json"): Response {
    const server = { instance: this.instance, epoch: this.epoch };
    return new Response(JSON.stringify({ server, ...body }), {
      status,
      headers: this.#headers({ "Content-Type": type }),
    });
  }

  #headers(more: Record<string, string>): Record<string, string> {
    return { "X-Baycard-Server": `${this.instance};${this.epoch}`, ...more };
  }

  async #answer(url: string, init: RequestInit): Promise<Response> {
    const { pathname, searchParams } = new URL(url, "http://shop.test");
    const [, , room = "", name = "", last = ""] = pathname.split("/");
    if (room === "ping") return this.#json({ time: "", formats: [1], book: this.book.sha256, app: "1" });
    if (room === "book") return this.#json({ ...this.book, language: searchParams.get("language") });
    if (room === "checklists") return this.#checklist(`${name}/${last}`);
    if (name === "push") return this.#push(await bodyOf(init));
    if (name === "pull")
      return this.#pull(Number(searchParams.get("after")), Number(searchParams.get("limit")));
    if (name === "digest") return this.#digest(last);
    if (room === "blobs") return init.method === "HEAD" ? this.#held(name) : this.#put(name, init);
    return this.#json({ code: "not-found" }, 404, "application/problem+json");
  }

  #checklist(name: string): Response {
    const found = this.checklists.get(name);
    return found === undefined
      ? this.#json({ code: "not-found" }, 404, "application/problem+json")
      : this.#json(found as Record<string, unknown>);
  }

  #push({ entries }: { entries: Entry[] }): Response {
    if (entries.some(({ id }) => this.fails_over.has(id)))
      return this.#json(
        { code: "server-fault", title: "A mistake.", do: "" },
        500,
        "application/problem+json",
      );
    const results = entries.map((entry) => {
      if (this.refuses.has(entry.id))
        return { count: 1, outcome: "refused", code: "no", title: "No.", do: "Ask." };
      const outcome = this.arrived.has(entry.id) ? "already-kept" : "kept";
      this.take(entry);
      return { count: 1, outcome, arrival: 1 };
    });
    return this.#json({ ids: digestInOrder(entries.map(({ id }) => id)), results });
  }

  #pull(after: number, limit: number): Response {
    const all = [...this.arrived.values()]
      .sort((a, b) => a.arrival - b.arrival)
      .filter((one) => one.arrival > after);
    const last = this.#next() - 1;
    if (after > last) return this.#json({ entries: [], cursor: last, more: false });
    if (all.length === 0) return new Response(null, { status: 204, headers: this.#headers({}) });
    const entries = all.slice(0, limit);
    return this.#json({ entries, cursor: entries.at(-1)?.arrival ?? after, more: all.length > limit });
  }

  #digest(card: string): Response {
    const entries = [...this.arrived.values()].filter((entry) => entry.card === card);
    const named = entries.flatMap((entry) => (entry.kind === "photo" ? [entry.body.blob] : []));
    return this.#json({
      count: entries.length,
      digest: digest(entries.map((entry) => entry.id)),
      blobs: named.map((sha256) => ({ sha256, held: this.whole.has(sha256) })),
    });
  }

  #held(sha256: string): Response {
    const held = this.blobs.get(sha256);
    if (held === undefined) return new Response(null, { status: 404, headers: this.#headers({}) });
    return new Response(null, { headers: this.#progress(sha256, held.length) });
  }

  async #put(sha256: string, init: RequestInit): Promise<Response> {
    const headers = new Headers(init.headers);
    if (this.elsewhere.has(headers.get("X-Baycard-Card") ?? "")) return this.#otherWorkshop();
    const from = Number(headers.get("Upload-Offset"));
    const held = this.blobs.get(sha256) ?? new Uint8Array();
    if (this.whole.has(sha256)) return this.#json({ complete: true }, 200);
    if (from !== held.length)
      return new Response(null, { status: 409, headers: this.#progress(sha256, held.length) });
    const piece = new Uint8Array(await new Response(init.body ?? null).arrayBuffer());
    const now = new Uint8Array([...held, ...piece]);
    this.blobs.set(sha256, now);
    if (now.length < Number(headers.get("Upload-Length"))) {
      return new Response(null, { status: 204, headers: this.#progress(sha256, now.length) });
    }
    this.whole.add(sha256);
    return this.#json({ complete: true }, 201);
  }

  #otherWorkshop(): Response {
    const said = { code: "other-workshop", title: "Another workshop's.", do: "Sign in there." };
    return this.#json(said, 403, "application/problem+json");
  }

  #progress(sha256: string, bytes: number): Record<string, string> {
    const complete = this.whole.has(sha256) ? "?1" : "?0";
    return this.#headers({ "Upload-Offset": String(bytes), "Upload-Complete": complete });
  }
}

async function bodyOf(init: RequestInit): Promise<{ entries: Entry[] }> {
  const zipped = new Headers(init.headers).get("Content-Encoding") === "gzip";
  const { body } = new Response(init.body ?? null);
  if (body === null) throw new Error("a push without a body");
  const plain = zipped ? body.pipeThrough(new DecompressionStream("gzip")) : body;
  return new Response(plain).json() as Promise<{ entries: Entry[] }>;
}
