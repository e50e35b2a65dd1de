/** The bay's words: the catalogue's keys that start with "bay." */
import { t, type Key, type Values } from "../../words/words";

export type BayKey = Key extends infer K ? (K extends `bay.${infer Stem}` ? Stem : never) : never;

export function say(key: BayKey, values: Values = {}): string {
  return t(`bay.${key}`, values);
}
