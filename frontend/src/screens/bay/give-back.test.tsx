// Saving all that the phone holds, for a server that has lost what another phone had sent.
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { GiveBack } from "./give-back";
import { button, makeBay, show, takeAway, until, walkedCard } from "./testing";

let downloads: string[] = [];

beforeEach(() => {
  downloads = [];
  URL.createObjectURL = () => "blob:1";
  URL.revokeObjectURL = () => undefined;
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (this: HTMLAnchorElement) {
    downloads.push(this.download);
  });
});

afterEach(async () => {
  await takeAway();
  vi.restoreAllMocks();
});

it("downloads what was fetched of the cards beside what waits", async () => {
  const bay = makeBay();
  await walkedCard(bay);
  const [card = ""] = await bay.store.cards();
  const entries = await bay.store.entriesOf(card);
  const filled = bay.store as typeof bay.store & { keepPage(page: unknown[], cursor: number): Promise<void> };
  await filled.keepPage(
    entries.map((entry) => ({ ...entry, id: `${entry.id.slice(0, -1)}f`, slot: "stage", arrival: 1 })),
    1,
  );
  const page = show(bay, <GiveBack services={bay.services} />);
  button(page, "Save all this phone holds").click();
  await until(() => downloads.length === 1);
  expect(page.querySelector("[role=status]")?.textContent).toContain("Entries in the file: 2.");
});
