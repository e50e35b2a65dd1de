// An entry over which the server fails is named on the phone's page, with why it waits.
import { signal } from "@preact/signals";
import { afterEach, expect, it } from "vitest";
import type { Failure } from "../../api/result";
import { NOTHING_KNOWN, type StuckEntry } from "../../sync/status";
import { Stuck } from "./stuck";
import { CARD, makeBay, show, takeAway, until, walkedCard } from "./testing";

const FAULT: Failure = {
  is: "problem",
  status: 500,
  code: "server-fault",
  title: "The server made a mistake.",
  do: "Try again in a moment.",
  retry_after_s: null,
  details: {},
};

afterEach(takeAway);

async function phoneWith(failure: Failure | null) {
  const bay = makeBay();
  const card = await walkedCard(bay);
  await card.keep("fact", "vehicle/plate", { value: "TS 4711" });
  await card.keep("answer", "wheels/rock/front-left/1", { is: "choice", choice: "none" });
  await until(() => bay.waiting.value.entries.length === 3);
  const reading = (await bay.store.entriesOf(CARD)).find((entry) => entry.kind === "answer");
  const stuck: StuckEntry[] = failure === null ? [] : [{ id: reading?.id ?? "", failure }];
  const sender = { ...bay.services.sender, status: signal({ ...NOTHING_KNOWN, stuck }) };
  return show({ ...bay, services: { ...bay.services, sender } }, <Stuck />);
}

it("says which entry waits alone, on which card, and what the server said", async () => {
  const page = await phoneWith(FAULT);
  await until(() =>
    page.textContent.includes("Rock the wheel. Is there play? · Front left (TS 4711) waits alone."),
  );
  expect(page.textContent).toContain("The server made a mistake. All others go first.");
});

it("says that the server goes silent over it, where that is how it fails", async () => {
  const page = await phoneWith({ is: "unreachable", why: "time" });
  await until(() => page.textContent.includes("The server does not answer it, though it answers all else."));
});

it("says nothing of the kind while none waits alone", async () => {
  expect((await phoneWith(null)).textContent).not.toContain("waits alone");
});
