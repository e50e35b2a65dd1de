/** Photos and sounds on their way: how much the server holds, and the next piece. */
import type { Problem, Result } from "./result";
import { exchange, failureOf, jsonOf, serverInHeader, type Wire } from "./wire";
import { serverOf } from "./shapes";

const NONE: Held = { bytes: 0, complete: false };
const PUT_LIMIT_MS = 60_000;

export type Held = { bytes: number; complete: boolean };
export type Piece = {
  sha256: string;
  mime: string;
  from: number;
  whole_bytes: number;
  bytes: ArrayBuffer;
  /** the entry that mentions it: by this the server knows whose it is */
  of: { card: string; author: string } | null;
};

/** How many bytes of the blob the server holds; 0 when it has none. */
export async function askOffset(wire: Wire, sha256: string): Promise<Result<Held>> {
  const response = await exchange(wire, { method: "HEAD", path: pathOf(sha256) });
  if (!(response instanceof Response)) return response;
  const server = serverInHeader(response);
  if (server === null) return failureOf(response, null);
  const held = response.status === 404 ? NONE : heldOf(response);
  if ((response.ok || response.status === 404) && held !== null) return { is: "ok", value: held, server };
  return bareProblem(response.status);
}

/** Sends one piece. A wrong offset is no failure: the answer tells the right one. */
export async function putPiece(wire: Wire, piece: Piece): Promise<Result<Held>> {
  const response = await exchange(wire, {
    method: "PUT",
    path: pathOf(piece.sha256),
    bytes: piece.bytes,
    headers: {
      "Content-Type": piece.mime,
      "Upload-Offset": String(piece.from),
      "Upload-Length": String(piece.whole_bytes),
      ...(piece.of === null ? {} : { "X-Baycard-Card": piece.of.card, "X-Baycard-Author": piece.of.author }),
    },
    limit_ms: PUT_LIMIT_MS,
  });
  if (!(response instanceof Response)) return response;
  const server = serverInHeader(response);
  const held = heldOf(response);
  if ((response.status === 204 || response.status === 409) && held !== null && server !== null) {
    return { is: "ok", value: { ...held, complete: false }, server };
  }
  const json = await jsonOf(response);
  if (!response.ok) return failureOf(response, json);
  // Only this makes the phone believe that its bytes are safe elsewhere.
  const named = json === null ? null : serverOf(json);
  if (named === null) return { is: "not-our-server" };
  return { is: "ok", value: { bytes: piece.whole_bytes, complete: true }, server: named };
}

/** Where a photo or sound can be seen; `print` is the small one. */
export function blobUrl(sha256: string, size: "whole" | "print" = "whole"): string {
  return size === "print" ? `${pathOf(sha256)}?size=print` : pathOf(sha256);
}

function pathOf(sha256: string): string {
  return `/api/blobs/${sha256}`;
}

function heldOf(response: Response): Held | null {
  const offset = response.headers.get("Upload-Offset");
  if (offset === null || !/^\d+$/.test(offset)) return null;
  return { bytes: Number(offset), complete: response.headers.get("Upload-Complete") === "?1" };
}

/** A HEAD answer has no body to say more. */
function bareProblem(status: number): Problem {
  return {
    is: "problem",
    status,
    code: `status-${status}`,
    title: "",
    do: "",
    retry_after_s: null,
    details: {},
  };
}
