/**
 * The small typed functions that are not arithmetic, by the name a method gives them.
 * Each says its inputs and output with their units, in which it works. `{text}`, `{hex}` and `{list}` inputs are text; a
 * limit left out is none. Where all units read `1` though a length or a voltage may be meant, any one unit will do.
 */

import * as brakes from "./codes/brakes";
import * as conductors from "./codes/conductors";
import * as fractions from "./codes/fractions";
import * as monitors from "./codes/monitors";
import * as resistors from "./codes/resistors";
import * as tread from "./codes/tread";
import * as trouble from "./codes/trouble";
import * as tyre from "./codes/tyre";
import * as tyreAge from "./codes/tyreAge";
import * as vin from "./codes/vin";
import * as conformity from "./conformity";
import { MeasureError } from "./errors";
import * as gas from "./gas";
import { amount, type Answer, type Given, octets, optional, text, texts, whole } from "./given";
import { coverageFactor } from "./uncertainty";
import type { Units } from "./units";

/** A function: unit of each input, unit of the answer, and the work. */
export type Named = {
  inputs: Readonly<Record<string, string>>;
  output: string;
  work: (given: Given, units: Units) => Answer;
};

const CREST = new Map([
  ["sine", Math.SQRT2],
  ["triangle", Math.sqrt(3)],
  ["square", 1],
]);
const KURTOSIS = new Map([
  ["sine", 1.5],
  ["triangle", 1.8],
  ["square", 1],
  ["gaussian", 3],
]);

function ofText(name: string, output: string, work: (words: string) => Answer): Named {
  return { inputs: { [name]: "{text}" }, output, work: (given) => work(text(given, name)) };
}

function ofBytes(name: string, output: string, work: (bytes: number[]) => Answer): Named {
  return { inputs: { [name]: "{hex}" }, output, work: (given) => work(octets(given, name)) };
}

type Numbers<Names extends readonly unknown[]> = { [I in keyof Names]: number };

/** A function of amounts, read in the order of their names by `read`. */
function of<const Inputs extends readonly (readonly [string, string])[]>(
  read: (given: Given, name: string) => number,
  inputs: Inputs,
  output: string,
  work: (...values: Numbers<Inputs>) => Answer,
): Named {
  const values = (given: Given): Numbers<Inputs> =>
    inputs.map(([name]) => read(given, name)) as Numbers<Inputs>;
  return { inputs: Object.fromEntries(inputs), output, work: (given) => work(...values(given)) };
}

function sizePart(part: keyof tyre.TyreSize, output: string): Named {
  return ofText("designation", output, (words) => tyre.sizePart(words, part));
}

function waveform(known: ReadonlyMap<string, number>): (name: string) => number {
  return (name) => {
    const value = known.get(name);
    if (value === undefined) {
      throw new MeasureError("outside-domain", `the waveforms are ${[...known.keys()].join(" ")}`);
    }
    return value;
  };
}

function blowdown(work: (vessel: gas.Blowdown) => number): Named {
  return {
    inputs: BLOWDOWN,
    output: "s",
    work: (given) =>
      work({
        volume: amount(given, "volume") / 1000,
        p1: amount(given, "p1") * 1000,
        p2: amount(given, "p2") * 1000,
        pDown: amount(given, "p_down") * 1000,
        diameter: amount(given, "diameter") / 1000,
        discharge: amount(given, "Cd"),
        temperature: amount(given, "T"),
        k: amount(given, "k"),
        gasConstant: amount(given, "R_specific"),
      }),
  };
}

function guarded(work: typeof conformity.binary): Named {
  return {
    inputs: { y: "1", r: "1", U: "1", TL: "1", TU: "1" },
    output: "{text}",
    work: (given) => {
      const guard = amount(given, "r") * amount(given, "U");
      return work(amount(given, "y"), guard, optional(given, "TL"), optional(given, "TU"));
    },
  };
}

function convert(given: Given, units: Units): number {
  return units.convert(amount(given, "value"), text(given, "from"), text(given, "to"));
}

function convertDifference(given: Given, units: Units): number {
  return units.convertDifference(amount(given, "value"), text(given, "from"), text(given, "to"));
}

/** Between distance per fuel and fuel per distance, which are reciprocals; else as any unit. */
function convertEconomy(given: Given, units: Units): number {
  const [source, target] = [text(given, "from"), text(given, "to")];
  const [a, b] = [units.read(source), units.read(target)];
  const reciprocal = a.dim.every((x, i) => x + (b.dim[i] ?? 0) === 0) && a.dim.some((x) => x !== 0);
  if (!reciprocal) return convert(given, units);
  const value = amount(given, "value");
  if (value <= 0) throw new MeasureError("outside-domain", "a fuel economy is positive");
  return 1 / (value * a.factor) / b.factor;
}

const CONVERSION = { value: "1", from: "{text}", to: "{text}" };
const BLOWDOWN = {
  ...{ volume: "L", p1: "kPa", p2: "kPa", p_down: "kPa", diameter: "mm" },
  ...{ Cd: "1", T: "K", k: "1", R_specific: "J/kg/K" },
};
const GAMMA = [
  ["shape", "1"],
  ["scale", "1"],
  ["TU", "1"],
] as const;

export const FUNCTIONS: Readonly<Record<string, Named>> = {
  "vin-weighted-sum": ofText("vin", "1", vin.weightedSum),
  "vin-check-digit": ofText("vin", "{text}", vin.checkDigit),
  "vin-check-valid": ofText("vin", "{bool}", vin.checkValid),
  "vin-parts": ofText("vin", "{list}", vin.parts),
  "vin-invalid-positions": ofText("vin", "{list}", vin.invalidPositions),
  "vin-model-year-candidates": ofText("pos10", "{list}", vin.modelYearCandidates),
  "vin-model-year-us-light": {
    inputs: { pos7: "{text}", pos10: "{text}" },
    output: "a",
    work: (given) => vin.modelYearUsLight(text(given, "pos7"), text(given, "pos10")),
  },
  "vin-region": ofText("pos1", "{text}", vin.region),
  "tyre-size": ofText("designation", "{tyre}", tyre.size),
  "tyre-size-width": sizePart("width_mm", "mm"),
  "tyre-size-aspect": sizePart("aspect_percent", "%"),
  "tyre-size-rim": sizePart("rim_in", "[in_i]"),
  "tyre-size-load-index": sizePart("load_index", "1"),
  "tyre-size-speed-symbol": sizePart("speed_symbol", "{text}"),
  "tin-date": ofText("code", "{date}", tyre.date),
  "tin-age-years": {
    inputs: { code: "{text}", date: "{text}" },
    output: "a",
    work: (given) => tyreAge.ageYears(text(given, "code"), text(given, "date")),
  },
  "tyre-age-on-date": {
    inputs: { made: "1", date: "{text}" },
    output: "a",
    work: (given) => tyreAge.ageOfNumber(whole(given, "made"), text(given, "date")),
  },
  "tread-wear-pattern": of(
    amount,
    [
      ["inner", "mm"],
      ["middle", "mm"],
      ["outer", "mm"],
      ["even_within", "mm"],
    ],
    "{text}",
    tread.wearPattern,
  ),
  "tyre-load-share": {
    inputs: { load_index: "1", tyres: "1", axle_load: "kg" },
    output: "%",
    work: (given) =>
      tyre.loadSharePercent(whole(given, "load_index"), whole(given, "tyres"), amount(given, "axle_load")),
  },
  "tyre-load-index": of(whole, [["load_index", "1"]], "kg", tyre.loadKg),
  "tyre-axle-capacity": of(
    whole,
    [
      ["load_index", "1"],
      ["tyres", "1"],
    ],
    "kg",
    tyre.axleCapacityKg,
  ),
  "tyre-speed-symbol": ofText("symbol", "km/h", tyre.speedKmh),
  "dtc-decode": ofBytes("bytes", "{text}", trouble.decode),
  "dtc-encode": ofText("code", "{hex}", trouble.encode),
  "dtc-list-can": ofBytes("payload", "{list}", trouble.listedCan),
  "dtc-list-noncan": ofBytes("payload", "{list}", trouble.listedOlder),
  "dtc-controlled-by": ofText("code", "{text}", trouble.controlledBy),
  "readiness-mil": ofBytes("bytes", "{bool}", monitors.lampOn),
  "readiness-dtc-count": ofBytes("bytes", "1", monitors.codeCount),
  "readiness-ignition-type": ofBytes("bytes", "{text}", monitors.ignitionType),
  "readiness-supported-monitors": ofBytes("bytes", "{list}", monitors.supported),
  "readiness-incomplete-monitors": ofBytes("bytes", "{list}", monitors.incomplete),
  "readiness-incomplete-count-noncontinuous": ofBytes("bytes", "1", monitors.incompleteCount),
  "readiness-epa-allowed": of(whole, [["model_year", "a"]], "1", monitors.epaAllowed),
  "readiness-epa-accepted": of(
    whole,
    [
      ["model_year", "a"],
      ["incomplete", "1"],
    ],
    "{bool}",
    monitors.epaAccepted,
  ),
  "conductor-max-resistance-iec60228": {
    inputs: { class: "{text}", area: "mm2" },
    output: "Ohm/km",
    work: (given) => conductors.maxResistance(text(given, "class"), amount(given, "area")),
  },
  "resistor-colour-decode": {
    inputs: { bands: "{list}" },
    output: "Ohm",
    work: (given) => resistors.decode(texts(given, "bands")),
  },
  "resistor-colour-bands": of(amount, [["resistance", "Ohm"]], "{list}", resistors.bands),
  "substitution-resistor": of(
    amount,
    [
      ["level", "%"],
      ["R_empty", "Ohm"],
      ["R_full", "Ohm"],
    ],
    "Ohm",
    resistors.substitute,
  ),
  "e24-nearest": of(amount, [["resistance", "Ohm"]], "Ohm", resistors.e24Nearest),
  "e96-nearest": of(amount, [["resistance", "Ohm"]], "Ohm", resistors.e96Nearest),
  "e96-value": of(whole, [["n", "1"]], "1", resistors.e96Value),
  "disc-minimum-from-stamp": ofText("stamp", "mm", brakes.discMinimumMm),
  "brake-fluid-minimum-boiling-point": {
    inputs: { grade: "{text}", state: "{text}" },
    output: "Cel",
    work: (given) => brakes.boilingMinimumCel(text(given, "grade"), text(given, "state")),
  },
  "inch-fraction": ofText("written", "[in_i]", fractions.inches),
  "unit-convert": { inputs: CONVERSION, output: "{to}", work: convert },
  "temperature-convert": { inputs: CONVERSION, output: "{to}", work: convert },
  "temperature-difference-convert": { inputs: CONVERSION, output: "{to}", work: convertDifference },
  "fuel-economy-convert": { inputs: CONVERSION, output: "{to}", work: convertEconomy },
  "blowdown-time-isothermal": blowdown(gas.isothermal),
  "blowdown-time-adiabatic": blowdown(gas.adiabatic),
  "crest-factor-ideal": ofText("waveform", "1", waveform(CREST)),
  "kurtosis-ideal": ofText("waveform", "1", waveform(KURTOSIS)),
  "coverage-factor-t": of(
    amount,
    [
      ["p", "1"],
      ["dof", "1"],
    ],
    "1",
    coverageFactor,
  ),
  "conformity-probability": {
    inputs: { y: "1", u: "1", TL: "1", TU: "1" },
    output: "1",
    work: (given) =>
      conformity.probability(
        amount(given, "y"),
        amount(given, "u"),
        optional(given, "TL"),
        optional(given, "TU"),
      ),
  },
  "decision-binary-guard-band": guarded(conformity.binary),
  "decision-nonbinary-guard-band": guarded(conformity.nonbinary),
  "rejection-limit-relative-uncertainty": of(
    amount,
    [
      ["limit", "km/h"],
      ["u_rel", "%"],
      ["p", "1"],
    ],
    "km/h",
    conformity.rejectionLimit,
  ),
  "false-accept-probability-at-limit": of(
    amount,
    [
      ["r", "1"],
      ["k", "1"],
    ],
    "1",
    conformity.falseAcceptAtLimit,
  ),
  "guard-band-multiplier-for-risk": of(
    amount,
    [
      ["risk", "1"],
      ["k", "1"],
    ],
    "1",
    conformity.guardMultiplier,
  ),
  "gamma-out-of-tolerance": of(amount, GAMMA, "1", conformity.gammaOutOfTolerance),
  "global-false-accept-risk-gamma": of(
    amount,
    [...GAMMA, ["u", "1"], ["guard", "1"]],
    "1",
    conformity.gammaFalseAccept,
  ),
  "guard-band-for-global-risk-gamma": of(
    amount,
    [...GAMMA, ["u", "1"], ["target", "1"]],
    "1",
    conformity.gammaGuardForRisk,
  ),
};
