/**
 * How long a vessel takes to blow down through a hole: a sharp hole, ideal gas, rigid walls.
 * Source: isentropic nozzle flow times a discharge coefficient (40 CFR 1065.640 c), ideal gas law, over pressure.
 */

import { MeasureError } from "./errors";
import { integrate } from "./special";

/** Vessel in m3, absolute pressures in Pa, hole in m, start temperature in K, specific gas constant in J/(kg K). */
export type Blowdown = {
  volume: number;
  p1: number;
  p2: number;
  pDown: number;
  diameter: number;
  discharge: number;
  temperature: number;
  k: number;
  gasConstant: number;
};

/** Seconds from p1 to p2 while the walls hold the temperature. */
export function isothermal(vessel: Blowdown): number {
  check(vessel);
  return time(vessel, () => 1);
}

/** Seconds from p1 to p2 while the gas cools along the isentrope. */
export function adiabatic(vessel: Blowdown): number {
  check(vessel);
  return time(vessel, (p) => Math.pow(p / vessel.p1, (vessel.k - 1) / vessel.k)) / vessel.k;
}

function check(vessel: Blowdown): void {
  const sizes = [vessel.volume, vessel.diameter, vessel.discharge, vessel.temperature, vessel.gasConstant];
  if (Math.min(...sizes) <= 0 || vessel.k <= 1) {
    throw new MeasureError("outside-domain", "sizes are positive and the heat ratio is above 1");
  }
  const falls = vessel.pDown >= 0 && vessel.p2 >= vessel.pDown && vessel.p1 >= vessel.p2;
  if (!falls || vessel.p2 === 0) {
    throw new MeasureError(
      "outside-domain",
      "pressure falls from p1 to p2 and not below the pressure outside",
    );
  }
}

/** The integral of V dp / (R T Cd A G); cooling gives T over the temperature at the start. */
function time(vessel: Blowdown, cooling: (p: number) => number): number {
  const area = (Math.PI / 4) * vessel.diameter * vessel.diameter;
  const speed = Math.sqrt(vessel.gasConstant * vessel.temperature);
  const rate = (p: number): number => 1 / (Math.sqrt(cooling(p)) * p * flow(vessel.pDown / p, vessel.k));
  return (vessel.volume / (vessel.discharge * area * speed)) * overPressure(vessel, rate);
}

/** The integral of the rate from p2 to p1, in two stretches: choked and, below that, as the root of p - pDown. */
function overPressure(vessel: Blowdown, rate: (p: number) => number): number {
  const turn = Math.min(Math.max(vessel.pDown / critical(vessel.k), vessel.p2), vessel.p1);
  const choked = integrate(rate, turn, vessel.p1);
  const low = Math.sqrt(vessel.p2 - vessel.pDown);
  const high = Math.sqrt(turn - vessel.pDown);
  return choked + (high > low ? integrate((s) => byRoot(vessel, rate, s), low, high) : 0);
}

/** 2 s times the rate at pDown + s^2, which stays finite where the flow dies away. */
function byRoot(vessel: Blowdown, rate: (p: number) => number, s: number): number {
  const nearest = Math.max(s, 1e-5 * Math.sqrt(vessel.pDown));
  return 2 * nearest * rate(vessel.pDown + nearest * nearest);
}

/** Mass flux of a nozzle over p / sqrt(R T); below the critical ratio the flow is choked. */
function flow(ratio: number, k: number): number {
  const r = Math.max(ratio, critical(k));
  return Math.sqrt(((2 * k) / (k - 1)) * (Math.pow(r, 2 / k) - Math.pow(r, (k + 1) / k)));
}

function critical(k: number): number {
  return Math.pow(2 / (k + 1), k / (k - 1));
}
