/** The floor for the phone: a bare Preact page that lists 120 rows from IndexedDB and times a bare strict write. */
import { render } from "preact";
import { openDB } from "idb";

const ROWS = 120;
const database = await openDB("bare", 1, {
  upgrade(created) {
    created.createObjectStore("rows", { keyPath: "id" });
    created.createObjectStore("written", { keyPath: "id" });
  },
});

let rows = await database.getAll("rows");
if (rows.length < ROWS) {
  const filling = database.transaction("rows", "readwrite");
  for (let n = 0; n < ROWS; n += 1) void filling.store.put({ id: n, title: `Row ${n}`, state: "open" });
  await filling.done;
  rows = await database.getAll("rows");
}
let written = 0;
render(
  <div>
    <button type="button" onClick={() => void strictWrite((written += 1))}>
      Write
    </button>
    <ul>
      {rows.map((row) => (
        <li key={row.id}>
          {row.title} {row.state}
        </li>
      ))}
    </ul>
  </div>,
  document.getElementById("root") as HTMLElement,
);
performance.mark("usable");

/** One bare strict write, timed in milliseconds. */
async function strictWrite(id: number): Promise<number> {
  const begun = performance.now();
  const writing = database.transaction("written", "readwrite", { durability: "strict" });
  void writing.store.put({ id, slot: "a/b/c/1", body: { is: "choice", choice: "sound" } });
  await writing.done;
  return performance.now() - begun;
}
Object.assign(window, { strictWrite });
if ("serviceWorker" in navigator) void navigator.serviceWorker.register("/sw.js");
