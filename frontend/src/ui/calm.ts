/** Keeps a storm of taps from recording twice: after one accepted tap the control is deaf for a moment. */

export const QUIET_MS = 400;

/** A gate for one control. `pass(at)` says whether the tap at that time (ms, any steady clock) counts. */
export type Gate = { pass(at: number): boolean; close(at: number): void };

/** quietMs: how long the gate stays shut after a tap passed. */
export function makeGate(quietMs: number = QUIET_MS): Gate {
  let shutUntil = -Infinity;
  return {
    pass(at) {
      if (at < shutUntil) return false;
      shutUntil = at + quietMs;
      return true;
    },
    close(at) {
      shutUntil = Math.max(shutUntil, at + quietMs);
    },
  };
}
