/**
 * Diagnostic trouble codes: two bytes to five characters and back, lists as they come over the wire, who defines them.
 * Sources: SAE J2012 / ISO 15031-6 (format and groups), SAE J1979 (service 03). The split of P3 is from memory.
 */

import { MeasureError } from "../errors";

const SYSTEMS = "PCBU";
/** Replies with codes: stored, pending, permanent. */
const ANSWERS = [0x43, 0x47, 0x4a];
const GENERIC = ["P0", "P2", "B0", "C0", "U0"];
const MAKERS = ["P1", "B1", "B2", "C1", "C2", "U1", "U2"];

/** The code of two bytes; 0000 is padding and no code. Throws MeasureError `outside-domain`. */
export function decode(octets: readonly number[]): string {
  const [first = 0, second = 0] = octets;
  if (octets.length !== 2 || (first === 0 && second === 0)) {
    throw new MeasureError("outside-domain", "a trouble code is two bytes that are not both zero");
  }
  return `${SYSTEMS.charAt(first >> 6)}${(first >> 4) & 3}${hex(first & 15)}${hex(second).padStart(2, "0")}`;
}

/** The two bytes of a code, as four hexadecimal digits. */
export function encode(code: string): string {
  const plain = checked(code);
  return hex((SYSTEMS.indexOf(plain.charAt(0)) << 2) | Number(plain.charAt(1))) + plain.slice(2);
}

/** The codes of a reply on CAN, where the byte behind the service is their number. */
export function listedCan(octets: readonly number[]): string[] {
  checkAnswer(octets);
  const count = octets[1] ?? -1;
  if (count < 0 || count > Math.floor((octets.length - 2) / 2)) {
    throw new MeasureError("outside-domain", "the reply is shorter than the number of codes it names");
  }
  return pairs(octets.slice(2, 2 + 2 * count));
}

/** The codes of a reply on a bus older than CAN: no number, padded with zeros. */
export function listedOlder(octets: readonly number[]): string[] {
  checkAnswer(octets);
  if (octets.length % 2 === 0) throw new MeasureError("outside-domain", "the reply ends in half a code");
  return pairs(octets.slice(1));
}

/** Who defines a code: `ISO/SAE`, `manufacturer`, `ISO/SAE reserved`, or `mixed`. */
export function controlledBy(code: string): string {
  const plain = checked(code);
  const group = plain.slice(0, 2);
  if (GENERIC.includes(group)) return "ISO/SAE";
  if (MAKERS.includes(group)) return "manufacturer";
  if (group === "P3") return plain.charAt(2) < "4" ? "manufacturer" : "ISO/SAE reserved";
  return group === "U3" ? "mixed" : "ISO/SAE reserved";
}

function checked(code: string): string {
  if (!/^[PCBUpcbu][0-3][0-9A-Fa-f]{3}$/.test(code)) {
    throw new MeasureError("outside-domain", "a trouble code reads like P0420");
  }
  return code.toUpperCase();
}

function checkAnswer(octets: readonly number[]): void {
  if (!ANSWERS.includes(octets[0] ?? 0)) {
    throw new MeasureError("outside-domain", "a reply with codes begins with 43, 47 or 4A");
  }
}

function pairs(octets: readonly number[]): string[] {
  const found: string[] = [];
  for (let i = 0; i < octets.length; i += 2) {
    const pair = octets.slice(i, i + 2);
    if (pair.some((octet) => octet !== 0)) found.push(decode(pair));
  }
  return found;
}

function hex(value: number): string {
  return value.toString(16).toUpperCase();
}
