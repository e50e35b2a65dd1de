/** Promises of changing one's own secret on the phone, and of what a phone that was shut out says. */
import { signal } from "@preact/signals";
import { afterEach, describe, expect, it } from "vitest";
import { makeApi } from "../../api/api";
import { NOTHING_KNOWN, type SyncStatus } from "../../sync/status";
import { here } from "../route";
import { Cards } from "./cards";
import { OwnSecret } from "./own-secret";
import { Phone } from "./phone";
import { button, makeBay, show, takeAway, until } from "./testing";

const SERVER = { instance: "server-1", epoch: 1 };
const WRONG = { code: "wrong-old-secret", title: "As the server says it.", do: "" };

afterEach(takeAway);

/** The form over a server that takes only the second try, or over none. */
function theForm(answers: boolean) {
  const posts: string[] = [];
  const api = makeApi((path) => {
    if (!answers) return Promise.reject(new TypeError("no network"));
    posts.push(path);
    const refused = posts.length === 1;
    const body = JSON.stringify({ server: SERVER, ...(refused ? WRONG : {}) });
    const answer = new Response(body, { status: refused ? 403 : 200 });
    answer.headers.set("Content-Type", refused ? "application/problem+json" : "application/json");
    return Promise.resolve(answer);
  });
  const bay = makeBay();
  const page = show({ ...bay, services: { ...bay.services, api } }, <OwnSecret />);
  return { page, posts };
}

function types(page: Element, place: number, text: string) {
  const field = page.querySelectorAll("input")[place];
  if (!field) throw new Error("no field");
  field.value = text;
  field.dispatchEvent(new Event("input"));
}

async function changes(page: Element) {
  await until(() => !button(page, "Change the secret").disabled);
  button(page, "Change the secret").click();
}

it("keeps what was typed while the present one is wrong, and is empty again when it is changed", async () => {
  const { page, posts } = theForm(true);
  types(page, 0, "not-this-one");
  types(page, 1, "goose-lamp-41");
  await changes(page);
  await until(() => page.textContent.includes("This is not the present secret."));
  expect(page.querySelectorAll("input")[1]?.value).toBe("goose-lamp-41");
  await new Promise((resolve) => setTimeout(resolve, 500)); // a calm button is deaf for a moment
  await changes(page);
  await until(() => page.textContent.includes("Your secret is changed."));
  expect([...page.querySelectorAll("input")].map((one) => one.value)).toEqual(["", ""]);
  expect(posts).toEqual(["/api/people/me/secret", "/api/people/me/secret"]);
});

it("says that it takes the server, where there is none", async () => {
  const { page } = theForm(false);
  types(page, 0, "the-present-one");
  types(page, 1, "goose-lamp-41");
  await changes(page);
  await until(() => page.textContent.includes("The server does not answer."));
});

describe("a phone from which the server takes nothing", () => {
  const refused = (status: number, code: string) =>
    ({ is: "problem", status, code, title: "X.", do: "Y.", details: {}, retry_after_s: null }) as const;
  const heard = (status: Partial<SyncStatus>) => {
    window.matchMedia = () => ({ matches: true }) as MediaQueryList;
    window.scrollTo = () => undefined;
    const bay = makeBay();
    const sender = { ...bay.services.sender, status: signal({ ...NOTHING_KNOWN, ...status }) };
    return { ...bay, services: { ...bay.services, sender } };
  };

  it("says on its own page whom to ask when it was shut out, in its own words", async () => {
    const page = show(heard({ problem: refused(403, "device-revoked") }), <Phone />);
    await until(() => page.textContent.includes("Ask the foreman to let it in again."));
    expect(page.textContent).not.toContain("X. Y.");
  });

  it("says so among the cards, too", async () => {
    const page = show(heard({ problem: refused(403, "device-revoked") }), <Cards />);
    await until(() => page.textContent.includes("This device was shut out."));
  });

  it("says among the cards that it wants somebody to sign in again, with the way there", async () => {
    const bay = heard({ phase: "sign-in-needed", problem: refused(401, "not-signed-in") });
    const page = show(bay, <Cards />);
    await until(() => page.textContent.includes("wants you to sign in again"));
    button(page, "This phone").click();
    expect(here.value).toEqual({ at: "phone" });
  });

  it("says nothing of it while all is well, or while the server only does not answer", async () => {
    const page = show(heard({ phase: "waiting", problem: { is: "unreachable", why: "network" } }), <Cards />);
    await until(() => page.textContent.includes("New card"));
    expect(page.textContent).not.toMatch(/sign in again|shut out/);
  });
});
