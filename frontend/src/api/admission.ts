/** Who may come in: the people and the devices of the workshop, and letting them in or keeping them out. */
import type { Result } from "./result";
import { isNamed, isPerson, isRecord, type Person, type Role, type Shape } from "./shapes";
import { callJson, type Wire } from "./wire";

/** A person, and whether that one may still come in. */
export type Colleague = Person & { active: boolean };
/** A phone or browser; `last`: who signed in at it last, while that sign-in holds. */
export type Device = {
  id: string;
  name: string;
  revoked: boolean;
  last: { name: string; at: string } | null;
};
export type NewPerson = { name: string; role: Role; secret: string };

export type Admission = {
  colleagues(): Promise<Result<Colleague[]>>;
  devices(): Promise<Result<Device[]>>;
  enterPerson(who: NewPerson): Promise<Result<true>>;
  /** ends the person's sessions, but for the one that asks */
  giveSecret(id: string, secret: string): Promise<Result<true>>;
  /** the same for oneself, which takes the present one */
  changeSecret(old: string, secret: string): Promise<Result<true>>;
  letPerson(id: string, isIn: boolean): Promise<Result<true>>;
  letDevice(id: string, isIn: boolean): Promise<Result<true>>;
};

export function admission(wire: Wire): Admission {
  const get = <T>(path: string, shape: Shape<T>) => callJson(wire, { method: "GET", path }, shape);
  const post = (path: string, body: unknown = {}) =>
    callJson(wire, { method: "POST", path, body }, () => true as const);
  return {
    colleagues: () => get("/api/people/names", colleaguesShape),
    devices: () => get("/api/people/devices", devicesShape),
    enterPerson: (who) => post("/api/people", who),
    giveSecret: (id, secret) => post(`/api/people/${id}/secret`, { secret }),
    changeSecret: (old, secret) => post("/api/people/me/secret", { old, secret }),
    letPerson: (id, isIn) => post(`/api/people/${id}/${isIn ? "activate" : "deactivate"}`),
    letDevice: (id, isIn) =>
      post(`/api/people/devices/${encodeURIComponent(id)}/${isIn ? "allow" : "revoke"}`),
  };
}

const colleaguesShape: Shape<Colleague[]> = ({ people }) =>
  Array.isArray(people) && people.every(isColleague) ? people : null;

const devicesShape: Shape<Device[]> = ({ devices }) =>
  Array.isArray(devices) && devices.every(isDevice) ? devices : null;

function isColleague(value: unknown): value is Colleague {
  return isPerson(value) && "active" in value && typeof value.active === "boolean";
}

function isDevice(value: unknown): value is Device {
  if (!isRecord(value) || !isNamed(value)) return false;
  const { revoked, last }: Record<string, unknown> = value;
  if (typeof revoked !== "boolean") return false;
  return (
    last === null || (isRecord(last) && typeof last["name"] === "string" && typeof last["at"] === "string")
  );
}
