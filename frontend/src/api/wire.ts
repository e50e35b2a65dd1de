/** One exchange with the server: time limit, compression, and the judgement whether the answer is ours. */
import type { Failure, Result } from "./result";
import { isRecord, serverOf, text, type Json, type Server, type Shape } from "./shapes";

/** `fetch`, or what a test hands in. */
export type Wire = (url: string, init: RequestInit) => Promise<Response>;
export type Call = {
  method: "GET" | "POST" | "PUT" | "HEAD";
  path: string;
  body?: unknown;
  bytes?: ArrayBuffer | Blob;
  headers?: Record<string, string>;
  limit_ms?: number;
};

const LIMIT_MS = 10_000;
const WORTH_ZIPPING_BYTES = 1_000;

/** Sends `call` and gives the response, or why there is none. */
export async function exchange(wire: Wire, call: Call): Promise<Response | Failure> {
  const { method, path, headers, limit_ms } = call;
  const { body, encoding } = await packed(call);
  const clock = AbortSignal.timeout(limit_ms ?? LIMIT_MS);
  const init: RequestInit = {
    method,
    headers: { "X-Baycard": "1", ...encoding, ...headers },
    credentials: "same-origin",
    cache: "no-store",
    // A captive portal redirects to its login page; our API never redirects.
    redirect: "error",
    signal: clock,
    ...(body === null ? {} : { body }),
  };
  try {
    return await wire(path, init);
  } catch {
    return { is: "unreachable", why: clock.aborted ? "time" : "network" };
  }
}

/** Sends `call`; the answer counts only when it is JSON of the expected shape that names our server. */
export async function callJson<T>(wire: Wire, call: Call, shape: Shape<T>): Promise<Result<T>> {
  const response = await exchange(wire, call);
  return response instanceof Response ? valueOf(response, shape) : response;
}

/** What an answer says, when it is JSON of the expected shape that names our server. */
export async function valueOf<T>(response: Response, shape: Shape<T>): Promise<Result<T>> {
  const json = await jsonOf(response);
  if (!response.ok) return failureOf(response, json);
  const server = json === null ? null : serverOf(json);
  const value = json === null ? null : shape(json);
  if (server === null || value === null) return { is: "not-our-server" };
  return { is: "ok", value, server };
}

/** Our server names itself in a header too, for answers that have no JSON of their own to say it in. */
export function serverInHeader(response: Response): Server | null {
  const [instance, epoch] = (response.headers.get("X-Baycard-Server") ?? "").split(";");
  if (instance === undefined || instance === "" || !/^\d+$/.test(epoch ?? "")) return null;
  return { instance, epoch: Number(epoch) };
}

/** What an answer that is not a success means; a refusal that does not name our server is somebody else's. */
export function failureOf(response: Response, json: Json | null): Failure {
  if (json === null || typeof json["code"] !== "string" || serverOf(json) === null) {
    return isGateway(response.status) ? { is: "unreachable", why: "gateway" } : { is: "not-our-server" };
  }
  return {
    is: "problem",
    status: response.status,
    code: json["code"],
    title: text(json["title"]),
    do: text(json["do"]),
    retry_after_s: retryAfter(response),
    details: json,
  };
}

/** The JSON object of an answer, or null when it is anything else. */
export async function jsonOf(response: Response): Promise<Json | null> {
  if (!/^application\/(problem\+)?json\b/.test(response.headers.get("Content-Type") ?? "")) return null;
  try {
    const json: unknown = await response.json();
    return isRecord(json) ? json : null;
  } catch {
    return null;
  }
}

type Packed = { body: BodyInit | null; encoding: Record<string, string> };

async function packed({ body, bytes }: Call): Promise<Packed> {
  if (bytes !== undefined) return { body: bytes, encoding: {} };
  if (body === undefined) return { body: null, encoding: {} };
  const json = new TextEncoder().encode(JSON.stringify(body));
  const type = { "Content-Type": "application/json" };
  if (json.byteLength <= WORTH_ZIPPING_BYTES || typeof CompressionStream === "undefined") {
    return { body: json, encoding: type };
  }
  return { body: await zipped(json), encoding: { ...type, "Content-Encoding": "gzip" } };
}

async function zipped(bytes: Uint8Array<ArrayBuffer>): Promise<ArrayBuffer> {
  const whole = new Response(bytes).body;
  if (whole === null) return bytes.buffer;
  return new Response(whole.pipeThrough(new CompressionStream("gzip"))).arrayBuffer();
}

function isGateway(status: number): boolean {
  return status === 502 || status === 503 || status === 504;
}

function retryAfter(response: Response): number | null {
  const seconds = Number(response.headers.get("Retry-After") ?? Number.NaN);
  return Number.isFinite(seconds) ? seconds : null;
}
