/** The few ways in which this phone's store can fail, for the screens to say in words. */

/**
 * `full`: the phone has no room left; nothing of the transaction was kept.
 * `lost`: the browser closed its database and reopening did not help; a reload usually does.
 * `blocked`: another window holds an older version open.
 * `newer`: a newer version of the app has already changed the database; reload to get it.
 */
export type StoreFault = "full" | "lost" | "blocked" | "newer";

/** Raised by every store function whose transaction did not complete. */
export class StoreError extends Error {
  constructor(
    readonly fault: StoreFault,
    cause: unknown,
  ) {
    super(`the store is ${fault}`, { cause });
    this.name = "StoreError";
  }
}

/** The fault behind an IndexedDB exception, or null when it is a bug of ours. */
export function faultOf(error: unknown): StoreFault | null {
  switch (nameOf(error)) {
    case "QuotaExceededError":
      return "full";
    case "VersionError":
      return "newer";
    case "InvalidStateError":
    case "UnknownError":
    case "AbortError":
      return "lost";
    default:
      return null;
  }
}

function nameOf(error: unknown): string {
  if (typeof error !== "object" || error === null || !("name" in error)) return "";
  return String(error.name);
}
