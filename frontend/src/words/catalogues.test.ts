// @vitest-environment node
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { LANGUAGES } from "./languages";

type Texts = Record<string, string>;

const HERE = import.meta.dirname;
const SCREENS = join(HERE, "..", "screens");
const LONGER_AT_MOST = 1.8;
/** So many letters fit beside another button at 360 px, however short the English is. */
const ALWAYS_FITS = 16;

const english = textsOf("en");
const others = LANGUAGES.map(({ id }) => id).filter((id) => id !== "en");

describe.each(others)("the catalogue %s", (language) => {
  const texts = textsOf(language);

  test("has every text that English has, in the same files, and no other", () => {
    expect(readdirSync(join(HERE, language)).filter(isJson)).toEqual(
      readdirSync(join(HERE, "en")).filter(isJson),
    );
    expect(Object.keys(english).filter((key) => !(key in texts))).toEqual([]);
    expect(Object.keys(texts).filter((key) => !(key in english))).toEqual([]);
  });

  test("keeps the names in braces of every text", () => {
    const other = Object.keys(english).filter((key) => namesIn(english[key]) !== namesIn(texts[key]));
    expect(other).toEqual([]);
  });

  test("has no empty text and none with blanks at its ends", () => {
    expect(
      Object.keys(texts).filter((key) => texts[key] === "" || texts[key] !== texts[key]?.trim()),
    ).toEqual([]);
  });

  test("has words short enough for the buttons", () => {
    const tooLong = buttonKeys().filter(
      (key) => length(texts[key]) > Math.max(ALWAYS_FITS, LONGER_AT_MOST * length(english[key])),
    );
    expect(tooLong.map((key) => texts[key])).toEqual([]);
  });
});

test("the grades are called as Directive 2014/45/EU calls them in each language", () => {
  const grades = (language: string) =>
    ["minor", "major", "dangerous"].map((grade) => textsOf(language)[`bay.grade-${grade}`]);
  expect(grades("de")).toEqual(["Geringer Mangel", "Erheblicher Mangel", "Gefährlicher Mangel"]);
  expect(grades("es")).toEqual(["Deficiencia leve", "Deficiencia grave", "Deficiencia peligrosa"]);
  expect(grades("fr")).toEqual(["Défaillance mineure", "Défaillance majeure", "Défaillance critique"]);
});

test("a French sign that stands apart never begins a line", () => {
  const french = textsOf("fr");
  expect(Object.keys(french).filter((key) => / [:;!?»]|« /.test(french[key] ?? ""))).toEqual([]);
});

test("the keys of buttons are found in the screens", () => {
  const keys = buttonKeys();
  expect(keys).toContain("bay.new-card");
  expect(keys).toContain("desk.send-report");
  expect(keys.length).toBeGreaterThan(60);
});

function textsOf(language: string): Texts {
  const folder = join(HERE, language);
  const files = readdirSync(folder).filter(isJson);
  return Object.assign({}, ...files.map((name) => JSON.parse(readFileSync(join(folder, name), "utf-8"))));
}

function isJson(name: string): boolean {
  return name.endsWith(".json");
}

function namesIn(text = ""): string {
  return [...new Set(text.match(/\{\w+\}/g))].sort().join(" ");
}

function length(text = ""): number {
  return [...text].length;
}

/** Every key that is written right inside a button of a screen. */
function buttonKeys(): string[] {
  const keys = ["bay", "desk"].flatMap((part) =>
    readdirSync(join(SCREENS, part), { recursive: true, encoding: "utf-8" })
      .filter((name) => name.endsWith(".tsx") && !name.endsWith(".test.tsx"))
      .flatMap((name) => keysInButtons(readFileSync(join(SCREENS, part, name), "utf-8"))),
  );
  return [...new Set(keys)].flatMap(formsOf);
}

function keysInButtons(source: string): string[] {
  const buttons = source.match(/<(Button|button)\b[\s\S]*?<\/\1>/g) ?? [];
  const said = buttons.flatMap((button) => [...button.matchAll(/[>{?:(]\s*(say|tell)\(\s*([^)]*)\)/g)]);
  return said.flatMap(([, who, inside = ""]) =>
    [...inside.matchAll(/"([a-z][\w./ -]*)"/g)].map(
      ([, stem]) => `${who === "say" ? "bay" : "desk"}.${stem}`,
    ),
  );
}

/** The key itself, or its forms by number. */
function formsOf(key: string): string[] {
  return Object.keys(english).filter((one) => one === key || one.replace(/\.(one|other)$/, "") === key);
}
