/** The tables of the phone's database and the steps that bring an older one up to date. */
import type { DBSchema, IDBPDatabase } from "idb";
import type { Entry } from "../journal/types";
import type { Checklist } from "../measure/book";
import type { BlobLine, OutboxLine, PulledEntry } from "./types";

/** What arrived by pull: one value per card and page, because one row per entry is six times slower to write. */
export type PulledPage = { card: string; page: number; entries: PulledEntry[] };

export type Tables = DBSchema & {
  made: { key: string; value: Entry; indexes: { card: string } };
  outbox: { key: string; value: OutboxLine };
  pulled: { key: [string, number]; value: PulledPage };
  /** the bytes apart from their line, so that listing what waits reads no photo; ArrayBuffers, as one engine loses Blobs */
  blobs: { key: string; value: { sha256: string; mime: string; bytes: ArrayBuffer } };
  blob_lines: { key: string; value: BlobLine; indexes: { state: string; card: string } };
  checklists: { key: [string, number]; value: Checklist };
  meta: { key: string; value: unknown };
};
export type Database = IDBPDatabase<Tables>;
export const NAME = "baycard";

/** upgrades[n] leads from version n to n + 1. Add steps at the end; never change or remove one: phones hold unsent work. */
export const upgrades: ((db: Database) => void)[] = [
  function createTables(db) {
    db.createObjectStore("made", { keyPath: "id" }).createIndex("card", "card");
    db.createObjectStore("outbox", { keyPath: "id" });
    db.createObjectStore("pulled", { keyPath: ["card", "page"] });
    db.createObjectStore("blobs", { keyPath: "sha256" });
    const lines = db.createObjectStore("blob_lines", { keyPath: "sha256" });
    lines.createIndex("state", "state");
    lines.createIndex("card", "card");
    db.createObjectStore("checklists", { keyPath: ["id", "version"] });
    db.createObjectStore("meta");
  },
];

/** Runs the steps from `oldVersion` on. */
export function upgrade(db: Database, oldVersion: number): void {
  for (const step of upgrades.slice(oldVersion)) step(db);
}
