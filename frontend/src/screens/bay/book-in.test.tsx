/** Promises of the fields of the booking-in: what is typed is put right, kept, or told why not, and never lost. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { BookIn } from "./book-in";
import "./card-words";
import type { Bay } from "./context";
import { wholeNumber } from "./fact-field";
import { openCard, type OpenCard } from "./open-card";
import { CARD, makeBay, ME, show, takeAway, until } from "./testing";

function Booking({ card }: { card: OpenCard }) {
  return card.state.value ? <BookIn card={card} state={card.state.value} /> : null;
}

async function booking(bay: Bay = makeBay()) {
  const card = openCard(bay, CARD);
  const page = show(bay, <Booking card={card} />);
  await until(() => page.querySelector("input") !== null);
  return { bay, card, page };
}

function box(page: Element, label: string): HTMLInputElement {
  const found = [...page.querySelectorAll("label")].find((one) => one.textContent === label);
  const input = found && page.querySelector(`#${CSS.escape(found.htmlFor)}`);
  if (!(input instanceof HTMLInputElement)) throw new Error(`no box "${label}"`);
  return input;
}

function type(page: Element, label: string, text: string): void {
  const input = box(page, label);
  input.value = text;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  input.dispatchEvent(new Event("blur"));
}

const told = (page: Element, label: string) =>
  box(page, label).closest(".field")?.querySelector(".told")?.textContent ?? "";
const fact = (card: OpenCard, slot: string) => card.state.value?.facts.get(slot)?.value;

// Preact's identifiers hold signs that a selector must escape; jsdom has no CSS.escape.
beforeEach(() =>
  Object.assign(globalThis, { CSS: { escape: (text: string) => text.replace(/\W/g, "\\$&") } }),
);
afterEach(takeAway);

describe("the plate", () => {
  const here = { ...ME, workshop: { ...ME.workshop, plate_forms: ["AA 99 AAA", "AAA-9999"] } };

  it("is written in the form of the shop's plates", async () => {
    const { card, page } = await booking({ ...makeBay(), me: here });
    type(page, "Plate", "rdg 5089");
    await until(() => box(page, "Plate").value === "RDG-5089");
    expect(fact(card, "vehicle/plate")).toBe("RDG-5089");
    expect(told(page, "Plate")).toBe("");
  });

  it("is kept as typed where it is in no such form, and looked at again with the forms beside it", async () => {
    const { card, page } = await booking({ ...makeBay(), me: here });
    type(page, "Plate", "kp118st");
    await until(() => told(page, "Plate") !== "");
    expect(told(page, "Plate")).toContain("AA 12 AAA, AAA-1234");
    expect(fact(card, "vehicle/plate")).toBe("KP118ST");
  });

  it("is never remarked on in a shop that told no forms", async () => {
    const { card, page } = await booking();
    type(page, "Plate", "kp118st");
    await until(() => fact(card, "vehicle/plate") === "KP118ST");
    expect(told(page, "Plate")).toBe("");
  });
});

describe("a field of the booking-in", () => {
  it("takes a VIN back when it is emptied", async () => {
    const { card, page } = await booking();
    type(page, "VIN", "wvwzzz1jzxw000011");
    await until(() => fact(card, "vehicle/vin") === "WVWZZZ1JZXW000011");
    type(page, "VIN", "");
    await until(() => fact(card, "vehicle/vin") === undefined);
    expect(box(page, "VIN").value).toBe("");
  });

  it("keeps what is no e-mail address on the screen and says so beside it", async () => {
    const { card, page } = await booking();
    type(page, "Customer's e-mail", "marta@bakery");
    await until(() => told(page, "Customer's e-mail") !== "");
    expect(told(page, "Customer's e-mail")).toContain("not kept");
    expect(box(page, "Customer's e-mail").value).toBe("marta@bakery");
    expect(fact(card, "customer/email")).toBeUndefined();
    expect(page.querySelector("[role=alert]")).toBeNull();
  });

  it("still holds, and tells, what could not be kept when one comes back to it", async () => {
    const { bay, card, page } = await booking();
    type(page, "Customer's name", "M".repeat(501));
    await until(() => told(page, "Customer's name") !== "");
    type(page, "Year", "17");
    await until(() => told(page, "Year") !== "");
    const again = show(bay, <Booking card={card} />);
    await until(() => box(again, "Year").value === "17");
    expect(told(again, "Year")).toBe("Type a whole number from 1900 to 2100.");
    expect(box(again, "Customer's name").value).toBe("M".repeat(501));
    expect(fact(card, "vehicle/year")).toBeUndefined();
  });
});

describe("a whole number as it is typed", () => {
  it("may have marks between its thousands, and nothing else", () => {
    for (const text of ["164200", "164 200", "164.200", "164,200", "1’642’000", "1,64,200"])
      expect(wholeNumber(text), text).toBe(Number(text.replace(/\D/g, "")));
    for (const text of ["164200,5", "164 200.5", "164.2", "12,5", "about 164200", "", "-5"])
      expect(wholeNumber(text), text).toBeNull();
  });
});
