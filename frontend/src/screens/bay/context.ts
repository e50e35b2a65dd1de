/** What every bay screen is handed: who works here, the book, the store, and the clock. */
import type { ReadonlySignal } from "@preact/signals";
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Captured } from "../../capture/photo";
import type { Book } from "../../measure/book";
import type { Me, Store, Waiting } from "../../store/types";
import type { Services } from "../../sync/services";
import { NO_ALARMS, type Alarms } from "./alarms";

export type Bay = {
  services: Services;
  store: Store;
  me: Me;
  book: Book;
  nowMs: () => number;
  randomBytes: (count: number) => Uint8Array;
  waiting: ReadonlySignal<Waiting>;
  preparePhoto: (file: Blob) => Promise<Captured>;
  hash: (bytes: ArrayBuffer) => Promise<string>;
};

export const BayContext = createContext<Bay | null>(null);

/** The bay of this screen. Throws when a screen is shown outside of it, which is a bug. */
export function useBay(): Bay {
  const bay = useContext(BayContext);
  if (bay === null) throw new Error("a bay screen needs a bay around it");
  return bay;
}

/** Countdowns under way on any card. */
export const AlarmsContext = createContext<Alarms>(NO_ALARMS);

export function useAlarms(): Alarms {
  return useContext(AlarmsContext);
}
