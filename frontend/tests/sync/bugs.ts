/** Mistakes that somebody could make in the phone's code, put around it on purpose: the simulator has to notice each. */
import type { Api } from "../../src/api/api";
import type { Entry } from "../../src/journal/types";
import type { SyncStore } from "../../src/store/types";
import type { SenderOutside } from "../../src/sync/sender";

export type Bug = (outside: SenderOutside) => SenderOutside;

const none: Bug = (outside) => outside;

function inStore(change: (store: SyncStore) => Partial<SyncStore>): Bug {
  return (outside) => ({ ...outside, store: { ...outside.store, ...change(outside.store) } });
}

function inApi(change: (api: Api, store: SyncStore) => Partial<Api>): Bug {
  return (outside) => ({ ...outside, api: { ...outside.api, ...change(outside.api, outside.store) } });
}

/** The last digits of the id, made new. */
function renamed(entry: Entry, tries: number): Entry {
  return { ...entry, id: entry.id.slice(0, -3) + (tries % 4096).toString(16).padStart(3, "0") };
}

const bugs: Record<string, Bug> = {
  none,
  "line leaves the outbox when the request leaves": inApi((api, store) => ({
    push: async (entries) => {
      await store.settle(
        entries.map((entry) => entry.id),
        [],
      );
      return api.push(entries);
    },
  })),
  "a try again is a new entry": inApi((api) => {
    let tries = 0;
    return {
      push: async (entries) => {
        tries += 1;
        const sent = entries.map((entry) => renamed(entry, tries));
        const answer = await api.push(sent);
        if (answer.is !== "ok") return answer;
        return {
          ...answer,
          value: answer.value.map((result, place) => ({ ...result, id: entries[place]?.id ?? "" })),
        };
      },
    };
  }),
  "photo is sent when some of it is": inStore((store) => ({
    blobHeld: (sha256, held) => (held > 0 ? store.blobSent(sha256) : store.blobHeld(sha256, held)),
  })),
  "cursor is kept before the page": inStore((store) => ({
    keepPage: async (entries, cursor) => {
      await store.keepPage([], cursor);
      await new Promise(setImmediate);
      await store.keepPage(entries, cursor);
    },
  })),
  "what is refused is dropped": inStore((store) => ({
    settle: (kept, refused) => store.settle([...kept, ...refused.map((one) => one.id)], []),
  })),
  "no entry lets the others go first": inStore((store) => ({ batch: (limit) => store.batch(limit) })),
  "what the server fails over is set aside": inApi((api, store) => ({
    push: async (entries) => {
      const answer = await api.push(entries);
      const [only, ...more] = entries;
      if (answer.is !== "problem" || answer.status !== 500 || only === undefined || more.length > 0)
        return answer;
      await store.settle([], [{ id: only.id, reason: { code: answer.code, title: "No.", do: "Wait." } }]);
      return answer;
    },
  })),
  "every entry that was sent counts as kept": inApi((api) => ({
    push: async (entries) => {
      const answer = await api.push(entries);
      if (answer.is !== "problem" || answer.status < 500) return answer;
      const value = entries.map(({ id }) => ({ id, outcome: "kept" as const, arrival: null }));
      return { is: "ok", value, server: null };
    },
  })),
};

/** The mistake of that name; raises for a name that nobody knows. */
export function bugNamed(name: string): Bug {
  const found = bugs[name];
  if (found === undefined) throw new Error(`no such bug: ${name}`);
  return found;
}
