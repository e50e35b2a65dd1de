/** What became of a call to the server. Every outcome is a value; only bugs are exceptions. */
import type { Server } from "./shapes";

export type Problem = {
  is: "problem";
  status: number;
  code: string;
  title: string;
  do: string;
  retry_after_s: number | null;
  /** the whole problem document, for calls whose problem carries more */
  details: Record<string, unknown>;
};
/** No answer at all, or one that a gateway made because the server behind it is down. */
export type Unreachable = { is: "unreachable"; why: "time" | "network" | "gateway" };
/** Something answered, but not our server: a captive portal, a proxy, a wrong network. */
export type NotOurServer = { is: "not-our-server" };
export type Failure = Problem | Unreachable | NotOurServer;
export type Ok<T> = { is: "ok"; value: T; server: Server | null };
export type Result<T> = Ok<T> | Failure;
