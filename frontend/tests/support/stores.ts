/** Stores for tests: each under its own name, with a clock that stands still until it is moved. */
import { openStore } from "../../src/store/open";
import type { SyncStore } from "../../src/store/types";

let names = 0;

export function aName(): string {
  names += 1;
  return `store-${names}`;
}

export function aStore(name = aName(), now = () => 1_000): SyncStore {
  return openStore({ now, pause: () => Promise.resolve(), channel: null, name });
}
