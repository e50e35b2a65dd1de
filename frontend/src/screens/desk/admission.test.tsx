// Promises of "People and phones": a lost phone is shut out and let in again, and what the server refuses stays typed.
import { signal } from "@preact/signals";
import { afterEach, expect, it } from "vitest";
import { makeApi } from "../../api/api";
import type { Role } from "../../api/shapes";
import { button, makeBay, ME, show, takeAway, until } from "../bay/testing";
import { Admission } from "./admission";
import { DeskContext } from "./context";

const SERVER = { instance: "server-1", epoch: 1 };
const LOST = {
  id: "phone-1",
  name: "Phone of the bay",
  revoked: false,
  last: { name: "Tom Abara", at: "2026-05-04T08:00:00+00:00" },
};
const TOM = { id: "tom", name: "Tom Abara", role: "technician", active: true };
const TAKEN = { code: "name-taken", title: "The workshop has somebody of that name.", do: "Choose another." };

const OLA = { name: "Ola Tern", role: "owner", active: true };
const WEAK = { code: "weak-secret", title: "Too easy.", do: "Use more." };

afterEach(takeAway);

/** Every new person is refused, and the first secret. */
function refusals(posts: readonly string[], path: string) {
  if (path === "/api/people") return TAKEN;
  return path.endsWith("/secret") && posts.filter((one) => one === path).length === 1 ? WEAK : null;
}

/** A desk over a server that knows one phone, one person and whoever is signed in. */
function theDesk(role: Role) {
  const posts: string[] = [];
  const devices = [{ ...LOST }, { ...LOST, id: ME.device.id, name: "Desk", last: null }];
  const api = makeApi((path, init) => {
    if (init.method === "POST") posts.push(path);
    const revoke = /devices\/(.+)\/(revoke|allow)$/u.exec(path);
    const device = devices.find((one) => one.id === revoke?.[1]);
    if (device) device.revoked = revoke?.[2] === "revoke";
    const refused = refusals(posts, path);
    const body = refused ?? { devices, people: [TOM, { ...OLA, id: ME.person.id }] };
    const status = refused ? 409 : 200;
    const answer = new Response(JSON.stringify({ server: SERVER, ...body }), { status });
    answer.headers.set("Content-Type", status === 200 ? "application/json" : "application/problem+json");
    return Promise.resolve(answer);
  });
  const bay = { ...makeBay(), me: { ...ME, person: { ...ME.person, role } } };
  const page = show(
    bay,
    <DeskContext.Provider value={{ api, names: signal(new Map<string, string>()), pull: () => undefined }}>
      <Admission />
    </DeskContext.Provider>,
  );
  const details = page.querySelector("details");
  if (details) {
    details.open = true;
    details.dispatchEvent(new Event("toggle"));
  }
  return { page, posts };
}

it("shuts a lost phone out and lets it in again, and offers neither for the device in one's hand", async () => {
  const { page, posts } = theDesk("foreman");
  await until(() => page.textContent.includes("Last signed in: Tom Abara"));
  button(page, "Shut out: Phone of the bay").click();
  await until(() => page.querySelector("[aria-label='Let in again: Phone of the bay']") !== null);
  await new Promise((resolve) => setTimeout(resolve, 500)); // a calm button is deaf for a moment
  button(page, "Let in again: Phone of the bay").click();
  await until(() => page.querySelector("[aria-label='Shut out: Phone of the bay']") !== null);
  expect(posts).toEqual(["/api/people/devices/phone-1/revoke", "/api/people/devices/phone-1/allow"]);
  expect(page.querySelectorAll(".desk-admission button")).toHaveLength(1);
});

it("keeps what was typed of a person whom the server refuses, and says why", async () => {
  const { page, posts } = theDesk("owner");
  await until(() => page.querySelector(".desk-form") !== null);
  const [name, secret] = page.querySelectorAll("input");
  types(name, "Tom Abara");
  types(secret, "goose-lamp-41");
  await until(() => !button(page, "Enter").disabled);
  button(page, "Enter").click();
  await until(() => page.querySelector("[role=alert]") !== null);
  expect(page.querySelector("[role=alert]")?.textContent).toContain("The workshop has somebody of that name");
  expect(name?.value).toBe("Tom Abara");
  expect(posts).toEqual(["/api/people"]);
});

function types(field: HTMLInputElement | null | undefined, text: string) {
  if (!field) throw new Error("no field");
  field.value = text;
  field.dispatchEvent(new Event("input"));
}

it("gives whoever forgot the secret a new one, and keeps what was typed while it is too weak", async () => {
  const { page, posts } = theDesk("owner");
  await until(() => page.querySelector("[aria-label='New secret: Tom Abara']") !== null);
  button(page, "New secret: Tom Abara").click();
  await until(() => page.querySelector(".desk-under input") !== null);
  const field = page.querySelector<HTMLInputElement>(".desk-under input");
  await until(() => document.activeElement === field);
  types(field, "goose");
  await until(() => !button(page, "Give this secret").disabled);
  button(page, "Give this secret").click();
  await until(() => page.querySelector(".desk-under [role=alert]") !== null);
  expect(field?.value).toBe("goose");
  types(field, "goose-lamp-41");
  await new Promise((resolve) => setTimeout(resolve, 500)); // a calm button is deaf for a moment
  button(page, "Give this secret").click();
  await until(() => page.textContent.includes("Tom Abara has a new secret."));
  expect(page.querySelector(".desk-under [role=alert]")).toBe(null);
  await until(() => document.activeElement?.textContent === "Close");
  button(page, "Close").click();
  await until(() => page.querySelector(".desk-under") === null);
  expect(document.activeElement?.getAttribute("aria-label")).toBe("New secret: Tom Abara");
  expect(posts).toEqual(["/api/people/tom/secret", "/api/people/tom/secret"]);
});

it("tells owners that their own new secret signs them out everywhere but here", async () => {
  const { page } = theDesk("owner");
  await until(() => page.querySelector("[aria-label='New secret: Ola Tern']") !== null);
  button(page, "New secret: Ola Tern").click();
  await until(() => page.textContent.includes("signed out everywhere but here"));
  expect(page.querySelector("[aria-label='Keep out: Ola Tern']")).toBe(null);
});

it("leaves people to the owner, and everything to those who may sign", async () => {
  const foreman = theDesk("foreman").page;
  await until(() => foreman.textContent.includes("Phone of the bay"));
  expect(foreman.textContent).not.toContain("Enter a person");
  expect(theDesk("technician").page.textContent).toBe("");
});
