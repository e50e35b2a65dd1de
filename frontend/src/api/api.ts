/** Every call the app makes to the server, by the name of what it does. */
import type { Entry } from "../journal/types";
import type { Book, Checklist } from "../measure/book";
import { admission, type Admission } from "./admission";
import { askOffset, putPiece, type Held, type Piece } from "./blobs";
import { takeIn, type TakenIn } from "./rescue";
import type { Result } from "./result";
import * as shapes from "./shapes";
import { callJson, exchange, failureOf, jsonOf, serverInHeader, valueOf, type Call, type Wire } from "./wire";

export type SignIn = { name: string; secret: string; device_name: string; device?: string };
export type SignOff = {
  count: number;
  digest: string;
  drive: "yes" | "with-restrictions" | "no" | "not-judged";
  restrictions: string;
  look_again: string;
  words: string;
  /** why it is signed although photos have not arrived; left out when they have */
  without_photos?: string;
};

export type Api = Admission & {
  signIn(who: SignIn): Promise<Result<shapes.SignedIn>>;
  signOut(): Promise<Result<true>>;
  whoAmI(): Promise<Result<shapes.SignedIn>>;
  names(): Promise<Result<shapes.Person[]>>;
  ping(): Promise<Result<shapes.Ping>>;
  /** in which language the book is asked for */
  language(): string;
  book(): Promise<Result<Book>>;
  checklist(id: string, version: number): Promise<Result<Checklist>>;
  push(entries: Entry[]): Promise<Result<shapes.PushResult[]>>;
  pull(after: number, limit: number): Promise<Result<shapes.Page>>;
  digest(card: string): Promise<Result<shapes.CardDigest>>;
  askOffset(sha256: string): Promise<Result<Held>>;
  putPiece(piece: Piece): Promise<Result<Held>>;
  signOff(card: string, signOff: SignOff): Promise<Result<Entry>>;
  sendReport(card: string, revision: number, to: string): Promise<Result<true>>;
  /** hands the server a file to which a phone saved its unsent work */
  takeIn(file: Blob): Promise<Result<TakenIn>>;
};

const PUSH_LIMIT_MS = 30_000;
const BOOK_LIMIT_MS = 30_000;
const REPORT_LIMIT_MS = 60_000;

export function makeApi(wire: Wire, language: () => string = () => "en"): Api {
  const post = <T>(path: string, body: unknown, shape: shapes.Shape<T>, limit_ms?: number) =>
    callJson(wire, { method: "POST", path, body, ...(limit_ms === undefined ? {} : { limit_ms }) }, shape);
  const get = <T>(path: string, shape: shapes.Shape<T>) => callJson(wire, { method: "GET", path }, shape);
  return {
    ...admission(wire),
    signIn: (who) => post("/api/people/sign-in", who, shapes.signedInShape),
    signOut: () => done(wire, { method: "POST", path: "/api/people/sign-out", body: {} }),
    whoAmI: () => get("/api/people/me", shapes.signedInShape),
    names: () => get("/api/people/names", shapes.namesShape),
    ping: () => get("/api/ping", shapes.pingShape),
    language,
    book: () => file(wire, `/api/book?language=${language()}`, isBook),
    checklist: (id, version) =>
      file(wire, `/api/checklists/${encodeURIComponent(id)}/${version}?language=${language()}`, isChecklist),
    push: (entries) =>
      post("/api/sync/push", { entries }, shapes.pushShape(entries.map(({ id }) => id)), PUSH_LIMIT_MS),
    pull: (after, limit) => pull(wire, after, limit),
    digest: (card) => get(`/api/sync/digest/${card}`, shapes.digestShape),
    askOffset: (sha256) => askOffset(wire, sha256),
    putPiece: (piece) => putPiece(wire, piece),
    signOff: (card, signOff) =>
      post(
        `/api/desk/cards/${card}/sign-off`,
        signOff,
        ({ entry }) => (isEntry(entry) ? entry : null),
        REPORT_LIMIT_MS,
      ),
    takeIn: (file) => takeIn(wire, file),
    sendReport: (card, revision, to) =>
      post(`/api/desk/cards/${card}/report/${revision}/send`, { to }, () => true, REPORT_LIMIT_MS),
  };
}

/** Where the report of a signed card can be fetched. */
export function reportUrl(card: string, revision: number): string {
  return `/api/desk/cards/${card}/report/${revision}.pdf`;
}

/** A page of what arrived; when nothing did, the answer has no content and our server names itself in a header. */
async function pull(wire: Wire, after: number, limit: number): Promise<Result<shapes.Page>> {
  const call: Call = { method: "GET", path: `/api/sync/pull?after=${after}&limit=${limit}` };
  const response = await exchange(wire, call);
  if (!(response instanceof Response)) return response;
  if (response.status !== 204) return valueOf(response, shapes.pageShape);
  const server = serverInHeader(response);
  if (server === null) return { is: "not-our-server" };
  return { is: "ok", value: { entries: [], cursor: after, more: false }, server };
}

/** A call whose success needs no content. */
async function done(wire: Wire, call: Call): Promise<Result<true>> {
  const response = await exchange(wire, call);
  if (!(response instanceof Response)) return response;
  if (!response.ok) return failureOf(response, await jsonOf(response));
  const server = serverInHeader(response);
  return server === null ? { is: "not-our-server" } : { is: "ok", value: true, server };
}

/** The book and the checklists are files of their own; the server names itself in a header. */
async function file<T>(wire: Wire, path: string, isIt: (json: unknown) => json is T): Promise<Result<T>> {
  const response = await exchange(wire, { method: "GET", path, limit_ms: BOOK_LIMIT_MS });
  if (!(response instanceof Response)) return response;
  const json: unknown = await jsonOf(response);
  if (!response.ok) return failureOf(response, shapes.isRecord(json) ? json : null);
  const server = serverInHeader(response);
  return isIt(json) && server !== null ? { is: "ok", value: json, server } : { is: "not-our-server" };
}

function isBook(json: unknown): json is Book {
  if (!shapes.isRecord(json)) return false;
  return (
    typeof json["sha256"] === "string" && Array.isArray(json["checklists"]) && shapes.isRecord(json["units"])
  );
}

function isChecklist(json: unknown): json is Checklist {
  if (!shapes.isRecord(json)) return false;
  return (
    typeof json["id"] === "string" && typeof json["version"] === "number" && Array.isArray(json["checks"])
  );
}

function isEntry(json: unknown): json is Entry {
  return shapes.isRecord(json) && typeof json["id"] === "string" && typeof json["kind"] === "string";
}
