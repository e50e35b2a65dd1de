/** Promises of what the desk says when a call did not work. */
import { afterEach, expect, test } from "vitest";
import type { Failure } from "../../api/result";
import german from "../../words/de/desk.json";
import { setLocale } from "../../words/words";
import { failureWords } from "./failure";

afterEach(() => setLocale("en", {}));

function problem(code: string, details: Record<string, unknown> = {}): Failure {
  const said = { title: "The server's words.", do: "The server's advice." };
  return { is: "problem", status: 422, code, ...said, retry_after_s: null, details };
}

test("a problem is told in the person's language", () => {
  setLocale("de", german);
  expect(failureWords(problem("bad-address"))).toBe(
    "Das ist keine E-Mail-Adresse. Bitte die Adresse prüfen.",
  );
});

test("why a mail was not taken goes before that it was not", () => {
  expect(failureWords(problem("mail-failed", { reason: "too-large" }))).toMatch(
    /too large for most mailboxes/,
  );
  expect(failureWords(problem("mail-failed"))).toMatch(/did not take the report/);
});

test("a problem without words of the desk comes out as the server says it", () => {
  expect(failureWords(problem("never-heard-of"))).toBe("The server's words. The server's advice.");
});
