// @vitest-environment node
import { signal } from "@preact/signals";
import { describe, expect, test } from "vitest";
import { anId, aNote } from "../../tests/support/entries";
import { aStore } from "../../tests/support/stores";
import { makeApi } from "../api/api";
import { cookieMarker } from "./marker";
import { recognise, signIn, signOut } from "./sign-in";
import type { Event } from "./state";

const me = {
  person: { id: "p1", name: "Ines Varga", role: "technician" },
  device: { id: "d1", name: "phone" },
  workshop: { id: "w1", name: "Tern Street Garage", units: "us", plate_forms: [] },
};
const who = { name: "Ines Varga", secret: "a secret", device_name: "phone" };

/** A phone whose server answers every call with this status. */
function aPhone(status = 200) {
  const asked: { url: string; body: Record<string, unknown> }[] = [];
  const told: Event[] = [];
  const page = { cookie: "" };
  let present = me;
  const wire = async (url: string, init: RequestInit) => {
    const text = init.body === undefined ? "{}" : await new Response(init.body).text();
    asked.push({ url, body: JSON.parse(text) as Record<string, unknown> });
    const body = {
      server: { instance: "s", epoch: 1 },
      code: "wrong-name-or-secret",
      title: "No.",
      do: "Check.",
      ...present,
    };
    return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
  };
  const sender = { tell: (event: Event) => void told.push(event) };
  const says = (other: typeof me) => void (present = other);
  return { store: aStore(), api: makeApi(wire), sender, marker: cookieMarker(page), asked, told, page, says };
}

describe("signing in", () => {
  test("keeps who it is on the phone and starts sending", async () => {
    const phone = aPhone();
    expect(await signIn(phone, who)).toMatchObject({ is: "ok" });
    expect(await phone.store.me()).toEqual(me);
    expect(phone.told).toEqual([{ is: "signed-in" }]);
  });

  test("of another person leaves the device what it was, and the first one's work where it was", async () => {
    const phone = aPhone();
    await signIn(phone, who);
    await phone.store.append([aNote(anId())]);
    await signOut(phone);
    await signIn(phone, { ...who, name: "Tom Abara" });
    expect(phone.asked.at(-1)?.body).toMatchObject({ name: "Tom Abara", device: "d1" });
    expect((await phone.store.waiting()).entries).toMatchObject([{ author: "ines", state: "waiting" }]);
  });

  test("of another workshop's person shows nothing of the first one's, keeps what waits, and offers it again later", async () => {
    const phone = aPhone();
    await signIn(phone, who);
    const [mine, theirs] = [aNote(anId()), aNote(anId())];
    await phone.store.append([mine]);
    await phone.store.keepPage([{ ...theirs, arrival: 500 }], 500);
    await phone.store.settle(
      [],
      [{ id: mine.id, reason: { code: "other-workshop", title: "No.", do: "Ask." } }],
    );
    await signOut(phone);
    phone.says({ ...me, device: { id: "d2", name: "phone" } });
    await signIn(phone, { ...who, name: "Piet Gull" });
    expect([await phone.store.cards(), await phone.store.cursor()]).toEqual([[mine.card], 0]);
    expect((await phone.store.waiting()).entries).toMatchObject([{ id: mine.id, state: "waiting" }]);
  });

  test("with a wrong secret changes nothing and says why", async () => {
    const phone = aPhone(401);
    expect(await signIn(phone, who)).toMatchObject({ is: "problem", do: "Check." });
    expect([await phone.store.me(), phone.told]).toEqual([null, []]);
  });
});

describe("a store that was cleared", () => {
  test("is noticed, and the same person goes on", async () => {
    const [phone, cleared] = [aPhone(), signal(false)];
    phone.marker.set();
    phone.page.cookie = phone.page.cookie.split(";")[0] ?? "";
    await recognise(phone, cleared);
    expect([cleared.value, await phone.store.me()]).toEqual([true, me]);
  });

  test("is not mistaken for a new phone, of which the server is not even asked", async () => {
    const [phone, cleared] = [aPhone(), signal(false)];
    await recognise(phone, cleared);
    expect([cleared.value, phone.asked]).toEqual([false, []]);
  });

  test("is not confused with having signed out", async () => {
    const [phone, cleared] = [aPhone(), signal(false)];
    await signIn(phone, who);
    await signOut(phone);
    phone.page.cookie = "baycard-kept=1";
    await recognise(phone, cleared);
    expect([cleared.value, await phone.store.me()]).toEqual([false, null]);
  });
});
