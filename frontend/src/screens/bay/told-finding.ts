/** A finding in the language of the book at hand: what it took from a check is told anew, what a person wrote stays. */
import { sha256 } from "../../journal/sha256";
import type { CardState, Finding, FindingBody } from "../../journal/types";
import type { Book, Check } from "../../measure/book";

const SENTENCE_DIGITS = 8;

/** The card with its findings told in the book's language, whatever the language they were kept in. */
export function toldIn(book: Book, state: CardState): CardState {
  const findings = state.findings.map((finding): Finding => {
    const body = toldBody(book, state, finding.entry.body);
    return body === finding.entry.body ? finding : { ...finding, entry: { ...finding.entry, body } };
  });
  return { ...state, findings };
}

/** The same body when nothing of it has to be told anew. */
export function toldBody(book: Book, state: CardState, body: FindingBody): FindingBody {
  const words = wordsOf(state, body);
  if (!body.proposed || !words) return body;
  const title = toldTitle(state, body);
  const plain = isFromACheck(book, body.plain) ? words.plain : body.plain;
  const proposed = { ...body.proposed, title: words.title };
  const isSame = title === body.title && plain === body.plain && proposed.title === body.proposed.title;
  return isSame ? body : { ...body, title, plain, proposed };
}

/** The title while it is the one proposed, as the check at hand says it; else as it was written. */
export function toldTitle(state: CardState, body: FindingBody): string {
  const isAsProposed = body.title === body.proposed?.title.trim();
  return (isAsProposed && wordsOf(state, body)?.title) || body.title;
}

/** What the limit or option proposes in the language of the check at hand. */
function wordsOf(state: CardState, { about, proposed }: FindingBody) {
  const because = proposed?.limit;
  const check = because === undefined ? null : checkOf(state, about);
  if (!check) return null;
  const limit = check.limits.find((one) => one.id === because);
  if (limit) return { title: limit.title, plain: limit.plain };
  const options = check.answer.kind === "choice" ? check.answer.options : [];
  const option = options.find((one) => one.id === because);
  return option ? { title: option.title ?? option.label, plain: option.plain ?? check.plain } : null;
}

function checkOf(state: CardState, about: string | null): Check | null {
  const [checklist, check] = about?.split("/") ?? [];
  const list = state.checklists.find((one) => one.checklist.id === checklist);
  return list?.checklist.checks.find((one) => one.id === check) ?? null;
}

function isFromACheck(book: Book, plain: string): boolean {
  return book.sentences?.includes(sha256(plain).slice(0, SENTENCE_DIGITS)) === true;
}
