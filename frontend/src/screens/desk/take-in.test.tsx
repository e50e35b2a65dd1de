// The desk's answer to a phone's file: what was kept, what was not and why, and who may do it at all.
import { signal } from "@preact/signals";
import { afterEach, expect, it } from "vitest";
import { makeApi } from "../../api/api";
import { makeBay, ME, show, takeAway, until } from "../bay/testing";
import { DeskContext } from "./context";
import { TakeIn } from "./take-in";

const SERVER = { instance: "server-1", epoch: 1 };
const NOT_OURS = { code: "unknown-author", title: "Its author is not one of us.", do: "Ask the owner." };

afterEach(takeAway);

function theDesk(role: "technician" | "foreman", body: Record<string, unknown>, status = 200) {
  const sent: { path: string; file: unknown }[] = [];
  const type = status === 200 ? "application/json" : "application/problem+json";
  const api = makeApi((path, init) => {
    sent.push({ path, file: init.body });
    const answer = new Response(JSON.stringify({ server: SERVER, ...body }), { status });
    answer.headers.set("Content-Type", type);
    return Promise.resolve(answer);
  });
  const bay = { ...makeBay(), me: { ...ME, person: { ...ME.person, role } } };
  let pulls = 0;
  const desk = { api, names: signal(new Map<string, string>()), pull: () => (pulls += 1) };
  const page = show(
    bay,
    <DeskContext.Provider value={desk}>
      <TakeIn states={new Map()} />
    </DeskContext.Provider>,
  );
  return { page, sent, pulls: () => pulls };
}

function choose(page: HTMLElement, file: File): void {
  const input = page.querySelector("input");
  if (input === null) throw new Error("no way to choose a file");
  Object.defineProperty(input, "files", { value: [file] });
  input.dispatchEvent(new Event("change"));
}

it("sends the file as it is, says what was kept and gathers what was refused by its reason", async () => {
  const refused = (id: string) => ({ id, outcome: "refused", ...NOT_OURS });
  const results = [
    { id: "a", outcome: "kept" },
    { id: "b", outcome: "already-kept" },
    refused("c"),
    refused("d"),
  ];
  const blobs = [{ sha256: "ab", outcome: "kept" }];
  const { page, sent, pulls } = theDesk("foreman", { results, blobs, cards: ["x"] });
  const file = new File(["PK"], "baycard-phone.zip");
  choose(page, file);
  await until(() => page.querySelector("[role=alert]") !== null);
  expect(sent).toEqual([{ path: "/api/desk/rescue", file }]);
  expect(page.querySelector("[role=status]")?.textContent).toBe(
    "Taken in. Entries: 1 new, 1 here already. Photos and sounds: 1 new, 0 here already.",
  );
  const words = page.querySelector("[role=alert]")?.textContent;
  expect(words).toContain("2 were refused");
  expect(words).toContain("2 × Its author is not one of us. Ask the owner.");
  expect(pulls()).toBe(1);
});

it("says in a sentence why a file is not taken in", async () => {
  const problem = { code: "rescue-damaged", title: "This file is damaged.", do: "Copy it again." };
  const { page } = theDesk("foreman", problem, 422);
  choose(page, new File(["PK"], "baycard-phone.zip"));
  await until(() => page.querySelector("[role=alert]") !== null);
  expect(page.querySelector("[role=alert]")?.textContent).toMatch(/^This file is damaged or incomplete\. /);
});

it("is not offered to a technician", () => {
  expect(theDesk("technician", {}).page.textContent).toBe("");
});
