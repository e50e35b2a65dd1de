/** The sender's steps, each one exchange with the server and what the store makes of it. */
import type { Api } from "../api/api";
import type { Held } from "../api/blobs";
import type { Failure, Ok, Problem, Result } from "../api/result";
import type { PushResult, Server } from "../api/shapes";
import { digest } from "../journal/digest";
import { StoreError } from "../store/errors";
import type { BlobLine, ChecklistName, Reason, SyncStore } from "../store/types";
import type { Outcome, Step } from "./state";
import { tidy } from "./tidy";

export type Tools = { store: SyncStore; api: Api };

/** Carries out one step. Raises StoreError when the phone's own store fails. */
export async function perform(tools: Tools, step: Step): Promise<Outcome> {
  try {
    return await carryOut(tools, step);
  } catch (error) {
    // A phone too full for what others wrote still sends its photos, which makes room.
    const isFull = error instanceof StoreError && error.fault === "full";
    if (isFull && FETCHING.includes(step.do)) return { of: "no-room" };
    throw error;
  }
}

function carryOut(tools: Tools, step: Step): Promise<Outcome> {
  switch (step.do) {
    case "push":
      return push(tools, step);
    case "set-aside":
      return setAside(tools, step);
    case "refresh":
      return refresh(tools);
    case "pull":
      return pull(tools, step.limit);
    case "fetch-checklist":
      return fetchChecklist(tools, step.name);
    case "ask-offset":
      return askOffset(tools, step.blob);
    case "put-piece":
      return putPiece(tools, step.blob, step.from, step.piece_bytes);
    case "compare":
      return compare(tools, step);
    case "tidy":
      return tidy(tools, step);
  }
}

async function push({ store, api }: Tools, { limit, choice }: Step & { do: "push" }): Promise<Outcome> {
  const entries = await store.batch(limit, choice);
  if (entries.length === 0) return { of: "push", sent: 0, settled: 0 };
  const answer = await api.push(entries);
  if (answer.is !== "ok") return { ...failed(answer, entries.length), first: entries[0]?.id ?? "" };
  const restored = await meet(store, answer);
  const kept = answer.value.filter((result) => result.outcome === "kept").map((result) => result.id);
  await store.settle(kept, answer.value.flatMap(asRefused));
  return restored ? { of: "new-server" } : { of: "push", sent: entries.length, settled: answer.value.length };
}

async function setAside({ store }: Tools, { failure, entry }: Step & { do: "set-aside" }): Promise<Outcome> {
  if (entry !== null && failure.is === "problem") {
    await store.settle([], [{ id: entry, reason: reasonOf(failure) }]);
  }
  return { of: "set-aside" };
}

async function refresh({ store, api }: Tools): Promise<Outcome> {
  const answer = await api.ping();
  if (answer.is !== "ok") return failed(answer);
  const another = await meet(store, answer);
  const held = await store.book();
  let late: { late: Failure } | null = null;
  if (held?.sha256 !== answer.value.book || (held.language ?? "en") !== api.language()) {
    const book = await api.book();
    if (book.is === "ok") await store.keepBook(book.value);
    else late = { late: book };
  }
  return another
    ? { of: "new-server", ...late }
    : { of: "refresh", server_ms: Date.parse(answer.value.time), ...late };
}

async function pull({ store, api }: Tools, limit: number): Promise<Outcome> {
  const after = await store.cursor();
  const page = await api.pull(after, limit);
  if (page.is !== "ok") return failed(page);
  // The cursor we asked with belongs to another order of arrival: this page must not be kept.
  if (await meet(store, page)) return { of: "new-server" };
  // Numbers that had been given out are free again: its database was put back without a new epoch.
  if (page.value.cursor < after && page.server !== null) {
    await store.meetServer(page.server);
    return { of: "new-server" };
  }
  await store.keepPage(page.value.entries, page.value.cursor, after);
  return { of: "pull", more: page.value.more };
}

async function fetchChecklist({ store, api }: Tools, name: ChecklistName): Promise<Outcome> {
  const answer = await api.checklist(name.id, name.version);
  if (answer.is === "ok") await store.keepChecklist(answer.value);
  else if (answer.is !== "problem" || answer.status !== 404) return failed(answer);
  await store.checklistSought(name);
  return { of: "fetch-checklist" };
}

async function askOffset({ store, api }: Tools, { sha256 }: BlobLine): Promise<Outcome> {
  const answer = await api.askOffset(sha256);
  if (answer.is !== "ok") return failed(answer);
  // Even a whole blob is believed only after a PUT: a HEAD answer cannot prove that it is from our server.
  if (await meet(store, answer)) return { of: "new-server" };
  await store.blobHeld(sha256, answer.value.bytes);
  return { of: "asked", sha256 };
}

async function putPiece(tools: Tools, line: BlobLine, from: number, piece_bytes: number): Promise<Outcome> {
  const { store, api } = tools;
  const { sha256, mime } = line;
  const blob = await store.blob(sha256);
  if (blob === null) return refuseBlob(tools, sha256, GONE);
  const bytes = blob.bytes.slice(from, from + piece_bytes);
  const of = await store.entryOfBlob(line);
  const answer = await api.putPiece({ sha256, mime, from, whole_bytes: blob.bytes.byteLength, bytes, of });
  if (answer.is === "problem" && answer.code === "hash-mismatch")
    return sendAnew(tools, line, blob.bytes, answer);
  if (answer.is === "problem" && NOT_OURS.includes(answer.code)) return refuseCard(tools, line, answer);
  if (answer.is === "problem" && isFinal(answer)) return refuseBlob(tools, sha256, reasonOf(answer));
  if (answer.is !== "ok") return failed(answer);
  if (await meet(store, answer)) return { of: "new-server" };
  return keepHeld(store, line, answer.value);
}

/** Bytes that were spoilt on the way are sent from the start again; bytes that are spoilt here never come right. */
async function sendAnew(
  tools: Tools,
  { sha256 }: BlobLine,
  bytes: ArrayBuffer,
  answer: Problem,
): Promise<Outcome> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const hex = Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (hex !== sha256) return refuseBlob(tools, sha256, reasonOf(answer));
  await tools.store.blobHeld(sha256, 0);
  return failed(answer);
}

async function keepHeld(store: SyncStore, { sha256, held }: BlobLine, answer: Held): Promise<Outcome> {
  if (answer.complete) await store.blobSent(sha256);
  else await store.blobHeld(sha256, answer.bytes);
  const moved = answer.complete || answer.bytes > held;
  return { of: "held", sha256, bytes: answer.bytes, moved, complete: answer.complete };
}

async function refuseBlob({ store }: Tools, sha256: string, reason: Reason): Promise<Outcome> {
  await store.blobRefused(sha256, reason);
  return { of: "blob-refused" };
}

/** Another workshop's, who used this phone before: none of the card's photos needs to be offered to find that out. */
async function refuseCard(tools: Tools, line: BlobLine, answer: Problem): Promise<Outcome> {
  const { blob, later_blobs } = await tools.store.queue();
  const others = [blob, ...later_blobs].filter(
    (one) => one?.card === line.card && one.sha256 !== line.sha256,
  );
  for (const one of others) if (one) await refuseBlob(tools, one.sha256, reasonOf(answer));
  return refuseBlob(tools, line.sha256, reasonOf(answer));
}

async function compare(tools: Tools, { card, unlike }: Step & { do: "compare" }): Promise<Outcome> {
  const { store, api } = tools;
  const answer = await api.digest(card);
  if (answer.is !== "ok" && !isUnknownCard(answer)) return failed(answer);
  if (answer.is === "ok" && (await meet(store, answer))) return { of: "new-server" };
  const ids = await store.settledIds(card);
  const agrees = answer.is === "ok" && answer.value.digest === digest(ids);
  const lacking = answer.is === "ok" ? answer.value.blobs.filter((blob) => !blob.held) : [];
  const names = lacking.map((blob) => blob.sha256);
  if (agrees) await store.compared(card);
  if (names.length > 0) await store.offerBlobsAgain(names);
  if (!agrees && unlike === "offer-again") await store.offerAgain(card);
  if (!agrees && unlike === "pull-all") await store.pullAgain();
  return { of: "compare", card, agrees };
}

/** Notes which server answered; true when the store knew another one, so that what it believes is to be checked. */
async function meet(store: SyncStore, answer: Ok<unknown>): Promise<boolean> {
  if (answer.server === null) return false;
  const known = await store.server();
  if (known !== null && isSame(known, answer.server)) return false;
  await store.meetServer(answer.server);
  return true;
}

function isSame(a: Server, b: Server): boolean {
  return a.instance === b.instance && a.epoch === b.epoch;
}

/** The server has read the blob and will never take it; everything else is worth another try. */
function isFinal({ status }: Problem): boolean {
  return status >= 400 && status < 500 && ![401, 403, 408, 409, 423, 425, 429].includes(status);
}

function isUnknownCard(answer: Result<unknown>): boolean {
  return answer.is === "problem" && answer.status === 404;
}

function asRefused(result: PushResult): { id: string; reason: Reason }[] {
  if (result.outcome !== "refused") return [];
  return [{ id: result.id, reason: { code: result.code, title: result.title, do: result.do } }];
}

function reasonOf(problem: Problem): Reason {
  return { code: problem.code, title: problem.title, do: problem.do };
}

function failed(failure: Failure, sent = 0): Outcome & { of: "failed" } {
  return { of: "failed", failure, sent };
}

const FETCHING: Step["do"][] = ["refresh", "pull", "fetch-checklist"];
/** As the server says it of an entry. */
const NOT_OURS = ["other-workshop", "unknown-author"];
const GONE: Reason = {
  code: "bytes-gone",
  title: "This phone no longer has the photo or sound.",
  do: "Take it again.",
};
