/** The desk's words: the keys of words/en/desk.json, which all start with "desk.". They load with the desk. */
import desk from "../../words/en/desk.json";
import { addWords, textOf, type Bare, type Values } from "../../words/words";

addWords(desk);

export type DeskKey =
  Bare<keyof typeof desk> extends infer K ? (K extends `desk.${infer Stem}` ? Stem : never) : never;

/** A sentence of the desk, with its values filled in; `count` picks the form for that number. */
export function tell(key: DeskKey, values: Values = {}): string {
  return textOf(`desk.${key}`, values);
}
