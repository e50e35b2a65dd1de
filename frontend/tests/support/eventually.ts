/** Waits in tests, with patience for a machine that is busy. */
import { vi } from "vitest";

/** Resolves once the check throws no more; fails after ten seconds. */
export const eventually = <T>(check: () => T | Promise<T>) => vi.waitFor(check, { timeout: 10_000 });
