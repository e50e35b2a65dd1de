// Saving what waits to a file, on the phone's page and before anybody has signed in.
import { signal } from "@preact/signals";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { NOTHING_KNOWN } from "../../sync/status";
import { Rescue, SILENT_DAYS } from "./rescue";
import { button, makeBay, show, takeAway, until, walkedCard } from "./testing";

const DAY_MS = 86_400_000;
let downloads: { name: string; file: Blob | undefined }[] = [];

beforeEach(() => {
  const files = new Map<string, Blob>();
  downloads = [];
  URL.createObjectURL = (file) => {
    files.set(`blob:${files.size}`, file as Blob);
    return `blob:${files.size - 1}`;
  };
  URL.revokeObjectURL = () => undefined;
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (this: HTMLAnchorElement) {
    downloads.push({ name: this.download, file: files.get(this.href) });
  });
});

afterEach(async () => {
  await takeAway();
  vi.restoreAllMocks();
});

async function waitingPhone() {
  const bay = makeBay();
  await walkedCard(bay);
  await until(() => bay.waiting.value.entries.length === 1);
  return bay;
}

it("is not offered while nothing waits", () => {
  const { services, ...bay } = makeBay();
  expect(show({ ...bay, services }, <Rescue services={services} />).textContent).toBe("");
});

it("downloads one file, says what is in it, and leaves everything waiting", async () => {
  const bay = await waitingPhone();
  const page = show(bay, <Rescue services={bay.services} />);
  button(page, "Save what waits to a file").click();
  await until(() => downloads.length === 1);
  expect(downloads[0]?.name).toMatch(/^baycard-phone-\d{4}-\d\d-\d\dT\d{4}\.zip$/);
  expect(await downloads[0]?.file?.slice(0, 2).text()).toBe("PK");
  expect(page.querySelector("[role=status]")?.textContent).toContain(
    "Entries in the file: 1. Photos and sounds: 0.",
  );
  expect(bay.waiting.value.entries).toHaveLength(1);
  expect(page.querySelector("a[download]")?.textContent).toBe("Download it again");
});

it("says what to do once the server has long been silent, and not before", async () => {
  const bay = await waitingPhone();
  bay.clock.ms += SILENT_DAYS * DAY_MS - 1;
  expect(show(bay, <Rescue services={bay.services} />).textContent).not.toContain("new address");
  bay.clock.ms += 1;
  expect(show(bay, <Rescue services={bay.services} />).textContent).toContain("new address");
  const status = signal({ ...NOTHING_KNOWN, last_contact: bay.clock.ms - 1 });
  const heard = { ...bay.services, sender: { ...bay.services.sender, status } };
  expect(show(bay, <Rescue services={heard} />).textContent).not.toContain("new address");
});
