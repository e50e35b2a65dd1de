/** The grammar of slots: what an entry is about, and which kinds may stand where. */
import type { Kind } from "./types";

const SEGMENT = /^[a-z0-9.-]{1,80}$/;
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const ROUND = /^[1-9][0-9]?$/;
const RESERVED = new Set([
  "card",
  "vehicle",
  "customer",
  "finding",
  "photo",
  "sound",
  "work",
  "stage",
  "agreed",
]);

export type CheckSlot = { is: "check"; checklist: string; check: string; position: string; round: number };
/** A parsed slot. `name` is a field, a maker's key, or the uuid of the thing named by `is`. */
export type Slot =
  | { is: "fact"; of: "vehicle" | "customer" | "card"; name: string }
  | { is: "maker"; name: string }
  | { is: "complaint"; name: string }
  | { is: "complaint-outcome"; name: string }
  | { is: "checklist-chosen"; checklist: string }
  | CheckSlot
  | { is: "finding-at"; checklist: string; check: string; position: string }
  | { is: "finding"; name: string }
  | { is: "photo"; name: string }
  | { is: "sound"; name: string }
  | { is: "work"; name: string }
  /** `name` is the slot of the finding agreed on */
  | { is: "agreed"; name: string }
  | { is: "stage" };

const STANDS_IN: Record<Kind, readonly Slot["is"][]> = {
  fact: ["fact", "maker"],
  complaint: ["complaint"],
  "complaint-outcome": ["complaint-outcome"],
  "checklist-chosen": ["checklist-chosen"],
  answer: ["check"],
  "not-checked": ["check"],
  finding: ["finding-at", "finding"],
  "finding-declined": ["finding-at", "finding"],
  photo: ["photo"],
  sound: ["sound"],
  "work-done": ["work"],
  agreed: ["agreed"],
  "handed-in": ["stage"],
  "sent-back": ["stage"],
  "signed-off": ["stage"],
  retraction: [
    "fact",
    "maker",
    "complaint",
    "complaint-outcome",
    "checklist-chosen",
    "check",
    "finding-at",
    "finding",
    "photo",
    "sound",
    "work",
    "agreed",
  ],
};
/** kind -> the slots it may stand in. */
export const KIND_STANDS_IN: ReadonlyMap<string, readonly Slot["is"][]> = new Map(Object.entries(STANDS_IN));
/** Kinds that only a foreman may write, and those that only the server writes. */
export const FOREMAN_KINDS: ReadonlySet<string> = new Set(["sent-back"]);
export const SERVER_KINDS: ReadonlySet<string> = new Set(["signed-off"]);

/** The slot of a check at a position in a round (1 = as found). */
export function checkSlot(checklist: string, check: string, position: string, round: number): string {
  return `${checklist}/${check}/${position}/${round}`;
}

/** The slot of the finding that a check at a position proposes, whatever the round. */
export function findingSlotFor(checklist: string, check: string, position: string): string {
  return `finding/at/${checklist}/${check}/${position}`;
}

/** The parts of a slot, or null when it is not one. */
export function parseSlot(slot: string): Slot | null {
  const parts = slot.split("/");
  const [head = ""] = parts;
  if (parts.length > 6 || !parts.every((part) => SEGMENT.test(part))) return null;
  if (!RESERVED.has(head)) return check(parts);
  if (head === "card") return card(parts);
  if (head === "vehicle" || head === "customer") return fact(head, parts);
  return head === "finding" ? finding(parts) : rest(head, parts);
}

/** The parts of a check's slot written without its round: checklist/check/position (round 0), or null. */
export function aboutCheck(about: string): CheckSlot | null {
  const slot = parseSlot(`${about}/1`);
  return slot?.is === "check" && about.split("/").length === 3 ? { ...slot, round: 0 } : null;
}

/** Whether an entry of this kind may stand in this slot; unknown kinds may stand nowhere. */
export function mayStand(kind: string, slot: Slot): boolean {
  return KIND_STANDS_IN.get(kind)?.includes(slot.is) ?? false;
}

function check(parts: string[]): Slot | null {
  const [checklist = "", name = "", position = "", round = ""] = parts;
  if (parts.length !== 4 || !ROUND.test(round)) return null;
  return { is: "check", checklist, check: name, position, round: Number(round) };
}

function card(parts: string[]): Slot | null {
  const [, folder = "", name = "", last = ""] = parts;
  if (parts.length === 2)
    return folder === "complaint" || folder === "checklist" ? null : { is: "fact", of: "card", name: folder };
  if (folder === "checklist" && parts.length === 3 && !RESERVED.has(name))
    return { is: "checklist-chosen", checklist: name };
  if (folder !== "complaint" || !UUID.test(name)) return null;
  if (parts.length === 3) return { is: "complaint", name };
  return parts.length === 4 && last === "outcome" ? { is: "complaint-outcome", name } : null;
}

function fact(head: "vehicle" | "customer", parts: string[]): Slot | null {
  const [, name = "", key = ""] = parts;
  const maker = head === "vehicle" && name === "maker";
  if (maker) return parts.length === 3 ? { is: "maker", name: key } : null;
  return parts.length === 2 ? { is: "fact", of: head, name } : null;
}

function finding(parts: string[]): Slot | null {
  const [, name = "", checklist = "", checkName = "", position = ""] = parts;
  if (parts.length === 2 && UUID.test(name)) return { is: "finding", name };
  if (parts.length !== 5 || name !== "at" || RESERVED.has(checklist)) return null;
  return { is: "finding-at", checklist, check: checkName, position };
}

function rest(head: string, parts: string[]): Slot | null {
  const [, name = ""] = parts;
  if (head === "stage") return parts.length === 1 ? { is: "stage" } : null;
  if (head === "agreed") {
    const on = parts.slice(1);
    return name === "finding" && finding(on) ? { is: "agreed", name: on.join("/") } : null;
  }
  if (parts.length !== 2 || !UUID.test(name)) return null;
  if (head === "photo" || head === "sound") return { is: head, name };
  return { is: "work", name };
}
