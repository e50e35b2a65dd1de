/** The desk says by how much a phone's clock was off, where the phone knew. */
import { signal } from "@preact/signals";
import { afterEach, expect, test } from "vitest";
import { NOTHING_KNOWN } from "../../sync/status";
import { openCard } from "../bay/open-card";
import { CARD, makeBay, show, takeAway, until, walkedCard } from "../bay/testing";
import { DeskContext } from "./context";
import { Trail } from "./trail";

const SLOT = "wheels/rock/front-left/1";
const HOUR_MS = 3_600_000;

afterEach(takeAway);

/** The trail of a reading made on a phone whose clock was known to be off by so much. */
async function trailOf(clock_off_ms: number | null): Promise<string> {
  const bay = makeBay();
  const sender = { ...bay.services.sender, status: signal({ ...NOTHING_KNOWN, clock_off_ms }) };
  const phone = { ...bay, services: { ...bay.services, sender } };
  await walkedCard(phone);
  const card = openCard(phone, CARD);
  await until(() => card.state.value !== null);
  await card.keep("answer", SLOT, { is: "choice", choice: "none" });
  const state = card.state.value;
  if (state === null) throw new Error("the card was read");
  const desk = { api: bay.services.api, names: signal(new Map<string, string>()), pull: () => undefined };
  const trail = (
    <DeskContext.Provider value={desk}>
      <Trail state={state} slot={SLOT} />
    </DeskContext.Provider>
  );
  return show(bay, trail).textContent;
}

test("a reading by a clock that was three hours ahead says so", async () => {
  expect(await trailOf(3 * HOUR_MS)).toContain("the phone's clock was 3 hours ahead");
});

test("a reading by a clock that was ten minutes behind says so", async () => {
  expect(await trailOf(-HOUR_MS / 6)).toContain("the phone's clock was 10 minutes behind");
});

test("a reading by a clock that agreed, or was never compared, says nothing", async () => {
  expect(await trailOf(null)).not.toContain("clock");
});
