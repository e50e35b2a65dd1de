/** Units of measurement by UCUM code: reading a code, and converting values between units of one dimension. */

import type { Atom, UnitTable } from "./book";
import { MeasureError } from "./errors";

export const LONGEST_CODE = 80;
export const LARGEST_EXPONENT = 12;
const DIMENSIONS = 8;
const TOKEN = /\{[^{}]*\}|\[[^[\]]*\]|[./()]|[^./(){}[\]]/gsu;

/** What a code means: base value = factor * value + offset; dim holds exponents of m, kg, s, A, K, mol, cd, rad. */
export type Unit = { factor: number; dim: readonly number[]; offset: number };

const ONE: Unit = { factor: 1, dim: new Array<number>(DIMENSIONS).fill(0), offset: 0 };

/**
 * Converts between the units of one table. Codes follow UCUM: `Pa.m3/s`, `L/(100.km)`, `/K`, `{rev}/min`. A temperature
 * scale with an offset converts as a scale only when it stands alone; inside a compound it counts as its step.
 */
export class Units {
  private readonly table: UnitTable;
  private readonly known = new Map<string, Unit>();

  constructor(table: UnitTable) {
    this.table = table;
  }

  /** What a code means. Throws MeasureError `unknown-unit`. */
  read(code: string): Unit {
    const known = this.known.get(code);
    if (known) return known;
    const unit = new Reader(code, this.table).read();
    this.known.set(code, unit);
    return unit;
  }

  /** Whether both codes are known and measure the same kind of quantity. */
  compatible(a: string, b: string): boolean {
    try {
      return sameDimension(this.read(a), this.read(b));
    } catch (error) {
      if (error instanceof MeasureError) return false;
      throw error;
    }
  }

  /**
   * The same quantity in another unit, offsets of temperature scales included.
   * Throws MeasureError `unknown-unit`, `wrong-unit` (other dimension), `not-a-number`.
   */
  convert(value: number, source: string, target: string): number {
    const [a, b] = this.pair(source, target);
    checkNumber(value);
    if (source === target) return value;
    if (a.offset === 0 && b.offset === 0) return finite((value * a.factor) / b.factor);
    return finite((value * a.factor + a.offset - b.offset) / b.factor);
  }

  /**
   * The same difference, spread or uncertainty in another unit: factors only, no offset.
   * Throws MeasureError `unknown-unit`, `wrong-unit` (other dimension), `not-a-number`.
   */
  convertDifference(value: number, source: string, target: string): number {
    const [a, b] = this.pair(source, target);
    checkNumber(value);
    return source === target ? value : finite((value * a.factor) / b.factor);
  }

  private pair(source: string, target: string): [Unit, Unit] {
    const a = this.read(source);
    const b = this.read(target);
    if (!sameDimension(a, b)) {
      throw new MeasureError("wrong-unit", `${source} does not measure the same thing as ${target}`);
    }
    return [a, b];
  }
}

function sameDimension(a: Unit, b: Unit): boolean {
  return a.dim.every((exponent, i) => exponent === b.dim[i]);
}

function checkNumber(value: unknown): void {
  if (typeof value !== "number" || !Number.isFinite(value)) {
    throw new MeasureError("not-a-number", "give a number");
  }
}

function finite(value: number): number {
  if (!Number.isFinite(value)) {
    throw new MeasureError("outside-domain", "the converted value is beyond what can be counted");
  }
  return value;
}

/** Reads one code from left to right. */
class Reader {
  private readonly code: string;
  private readonly table: UnitTable;
  private readonly rest: string[];

  constructor(code: string, table: UnitTable) {
    this.code = code;
    this.table = table;
    if (code.length > LONGEST_CODE) throw this.unknown();
    this.rest = words(code);
    if (this.rest.join("") !== code) throw this.unknown();
  }

  /** The whole code as one unit. */
  read(): Unit {
    const unit = this.term();
    if (this.rest.length > 0) throw this.unknown();
    return unit;
  }

  private term(): Unit {
    let unit = ONE;
    if (this.rest[0] === "/") {
      this.rest.shift();
      unit = times(ONE, this.component(), -1);
    } else {
      unit = this.component();
    }
    while (this.rest[0] === "." || this.rest[0] === "/") {
      const sign = this.rest.shift() === "." ? 1 : -1;
      unit = times(unit, this.component(), sign);
    }
    return unit;
  }

  private component(): Unit {
    const word = this.rest.shift() ?? ")";
    if (word === "(") {
      const unit = this.term();
      if (this.rest.shift() !== ")") throw this.unknown();
      return unit;
    }
    return this.simple(word);
  }

  /** A number, an annotation, or an atom with its prefix, exponent and annotation. */
  private simple(word: string): Unit {
    const bare = word.replace(/\{[^{}]*\}$/su, "");
    if (word !== "" && bare === "") return ONE;
    if (/^[0-9]{1,15}$/.test(bare)) return this.scaled(Number(bare));
    const found = this.atom(bare);
    if (found) return found;
    const [, name, digits] = /^(.*[^0-9+-])([+-]?[0-9]{1,2})$/su.exec(bare) ?? [];
    const base = name === undefined ? null : this.atom(name);
    const exponent = Number(digits);
    if (!base || exponent === 0 || Math.abs(exponent) > LARGEST_EXPONENT) throw this.unknown();
    return times(ONE, base, exponent);
  }

  private scaled(factor: number): Unit {
    if (factor === 0) throw this.unknown();
    return { ...ONE, factor };
  }

  private atom(word: string): Unit | null {
    const whole = this.find(word);
    if (whole) return unit(whole, 1);
    for (const length of [1, 2]) {
      const prefix = own(this.table.prefixes, word.slice(0, length));
      const atom = this.find(word.slice(length));
      if (prefix !== undefined && atom?.metric) return unit(atom, prefix);
    }
    return null;
  }

  private find(code: string): Atom | undefined {
    return own(this.table.atoms, code);
  }

  private unknown(): MeasureError {
    const shown = this.code.slice(0, LONGEST_CODE);
    return new MeasureError(
      "unknown-unit",
      `the unit '${shown}' is not known; use a UCUM code such as kPa or mm`,
    );
  }
}

function own<T>(table: Record<string, T>, key: string): T | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}

/** Signs (. / and brackets) and the words between them; braces and square brackets keep what they enclose together. */
function words(code: string): string[] {
  const found: string[] = [];
  let joining = false;
  for (const token of code.match(TOKEN) ?? []) {
    const sign = "/.()".includes(token);
    if (joining && !sign) found.push((found.pop() ?? "") + token);
    else found.push(token);
    joining = !sign;
  }
  return found;
}

function unit(atom: Atom, prefix: number): Unit {
  return { factor: prefix * atom.factor, dim: atom.dim, offset: atom.offset ?? 0 };
}

/** a * b^exponent, by repeated multiplication so that both languages round alike; an offset is left out. */
function times(a: Unit, b: Unit, exponent: number): Unit {
  let factor = a.factor;
  for (let i = 0; i < Math.abs(exponent); i++) factor = exponent > 0 ? factor * b.factor : factor / b.factor;
  return { factor, dim: a.dim.map((x, i) => x + (b.dim[i] ?? 0) * exponent), offset: 0 };
}
