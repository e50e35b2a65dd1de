/** The choice when photos go, the photos that wait, and the warning that a walk's photos may not fit. */
import { signal } from "@preact/signals";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { anId, aNote } from "../../../tests/support/entries";
import type { Room } from "../../store/persist";
import type { Event } from "../../sync/state";
import { NOTHING_KNOWN } from "../../sync/status";
import { PhotosSent } from "./photo-choice";
import { PhotosWait } from "./photos-wait";
import { RoomNotice } from "./room-notice";
import { button, makeBay, show, takeAway, until } from "./testing";

afterEach(takeAway);

/** A bay whose sender is in this state and notes what it is told. */
function bayWhere(status: Partial<typeof NOTHING_KNOWN>, free_bytes: number | null = null) {
  const bay = makeBay();
  const told: Event[] = [];
  const room: Room = { persisted: true, used_bytes: 1, free_bytes };
  const sender = {
    status: signal({ ...NOTHING_KNOWN, ...status }),
    tell: (event: Event) => void told.push(event),
    stop: () => undefined,
  };
  const left = signal<Room | null>(room);
  const services = { ...bay.services, sender, room: { ...bay.services.room, left } };
  return { bay: { ...bay, services }, told, left };
}

describe("when photos are sent", () => {
  test("is always until something else is picked, which is kept and told to the sender", async () => {
    const { bay, told } = bayWhere({});
    const page = show(bay, <PhotosSent />);
    const picked = () => page.querySelector('[aria-checked="true"]')?.textContent;
    await until(() => picked() === "Always");
    button(page, "Only when I say so").click();
    await until(() => told.length === 1);
    expect(picked()).toBe("Only when I say so");
    expect(await bay.store.setting("photos")).toBe("asked");
    expect(told).toEqual([{ is: "woke", why: "link" }]);
  });

  test("is said to be unknown where the browser does not tell the link", () => {
    const page = show(bayWhere({}).bay, <PhotosSent />);
    expect(page.textContent).toContain("This browser does not tell which link it has.");
  });
});

describe("photos that wait for a better link", () => {
  test("are counted, with the reason and a button that lets them go", () => {
    const { bay, told } = bayWhere({ blobs: 12, photos_wait: "slow" });
    const page = show(bay, <PhotosWait />);
    expect(page.textContent).toContain("12 photos and sounds wait for a better link: this one is slow.");
    button(page, "Send them now").click();
    expect(told).toEqual([{ is: "photos-let" }]);
  });

  test("are not spoken of when they are on their way", () => {
    expect(show(bayWhere({ blobs: 12 }).bay, <PhotosWait />).textContent).toBe("");
  });
});

describe("little room", () => {
  beforeEach(() => document.body.replaceChildren());

  test("is not spoken of while a walk's photos fit, nor where the browser gives no estimate", async () => {
    for (const free_bytes of [67_500_000, null]) {
      const page = show(bayWhere({}, free_bytes).bay, <RoomNotice />);
      await takeAway();
      expect(page.textContent).toBe("");
    }
  });

  test("is said in photos, with what may be let go, and is gone once it was seen", async () => {
    const { bay } = bayWhere({}, 30_000_000);
    const photo = { sha256: "ab", mime: "image/jpeg", bytes: new ArrayBuffer(2_000_000) };
    await bay.services.store.appendWithBlob(aNote(anId()), photo);
    const page = show(bay, <RoomNotice />);
    await until(() => page.textContent.includes("There is room for about 100 more photos"));
    button(page, "Let sent photos go now").click();
    await until(() => page.textContent.includes("no photo here has been sent yet"));
    button(page, "I have seen this").click();
    await until(() => page.textContent === "");
  });
});
