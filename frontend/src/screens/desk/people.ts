/** Names of people by id: from the server when it answers, else those this desk has seen before. */
import { signal, type ReadonlySignal } from "@preact/signals";
import type { Api } from "../../api/api";
import type { Store } from "../../store/types";

export type Names = ReadonlyMap<string, string>;

const SETTING = "names";

/** Reads the kept names at once and asks the server for the present ones. */
export function followNames(store: Store, api: Api): ReadonlySignal<Names> {
  const names = signal<Names>(new Map());
  void (async () => {
    const kept = await store.setting(SETTING);
    if (Array.isArray(kept)) names.value = new Map(kept.filter(isPair));
    const answer = await api.names();
    if (answer.is !== "ok") return;
    names.value = new Map(answer.value.map((person) => [person.id, person.name]));
    await store.keepSetting(SETTING, [...names.value]);
  })();
  return names;
}

function isPair(value: unknown): value is [string, string] {
  return Array.isArray(value) && value.length === 2 && value.every((one) => typeof one === "string");
}
