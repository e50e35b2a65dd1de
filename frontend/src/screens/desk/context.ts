/** What every part of the desk is handed besides the bay's context: the server's calls and people's names. */
import type { ReadonlySignal } from "@preact/signals";
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Api } from "../../api/api";
import type { Names } from "./people";
import { tell } from "./tell";

export type DeskDoor = { api: Api; names: ReadonlySignal<Names>; pull: () => void };

export const DeskContext = createContext<DeskDoor | null>(null);

/** The desk around this part. Throws when there is none, which is a bug. */
export function useDesk(): DeskDoor {
  const desk = useContext(DeskContext);
  if (desk === null) throw new Error("this part needs the desk around it");
  return desk;
}

/** The name of a person; one whom the list no longer names is said so. */
export function useName(person: string): string {
  return useDesk().names.value.get(person) ?? tell("person-unknown");
}
