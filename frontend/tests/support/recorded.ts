/** Recordings of the phone's database as a released app left it: tables and rows, with bytes as base64. */
import { openDB, type IDBPDatabase } from "idb";

type Table = { keyPath: string | string[] | null; indexes: Record<string, string | string[]> };
type Row = { key: IDBValidKey; value: unknown };
export type Recording = { version: number; tables: Record<string, Table>; rows: Record<string, Row[]> };

/** Room that is only held free belongs to no recording. */
const IS_NO_WORK = ["reserve"];

/** Tables and rows of an open database. */
export async function recordingOf(db: IDBPDatabase): Promise<Recording> {
  const recording: Recording = { version: db.version, tables: {}, rows: {} };
  for (const name of db.objectStoreNames) {
    const table = db.transaction(name).store;
    const indexes = [...table.indexNames].map((index) => [index, table.index(index).keyPath] as const);
    recording.tables[name] = { keyPath: table.keyPath, indexes: Object.fromEntries(indexes) };
    const [keys, values] = await Promise.all([db.getAllKeys(name), db.getAll(name)]);
    const rows = keys.map((key, place) => ({ key, value: written(values[place]) }));
    recording.rows[name] = rows.filter(({ key }) => !IS_NO_WORK.includes(String(key)));
  }
  return recording;
}

/** A database such as the recorded one; what today's code thinks of its tables plays no part. */
export async function restore(recording: Recording, name: string): Promise<void> {
  const db = await openDB(name, recording.version, { upgrade: (fresh) => build(fresh, recording) });
  for (const [table, rows] of Object.entries(recording.rows)) {
    const inline = recording.tables[table]?.keyPath !== null;
    for (const { key, value } of rows) await db.put(table, read(value), inline ? undefined : key);
  }
  db.close();
}

function build(db: IDBPDatabase, { tables }: Recording): void {
  for (const [name, { keyPath, indexes }] of Object.entries(tables)) {
    const table = db.createObjectStore(name, { keyPath });
    for (const [index, path] of Object.entries(indexes)) table.createIndex(index, path);
  }
}

function written(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_, inner: unknown) =>
      inner instanceof ArrayBuffer ? { base64: Buffer.from(inner).toString("base64") } : inner,
    ),
  );
}

function read(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(read);
  if (typeof value !== "object" || value === null) return value;
  if ("base64" in value && typeof value.base64 === "string")
    return new Uint8Array(Buffer.from(value.base64, "base64")).buffer;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, read(inner)]));
}
