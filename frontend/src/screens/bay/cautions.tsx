/** Cautions come before the check that needs them: once per card as a page, then as a line above the question. */
import type { ComponentChildren } from "preact";
import type { CardState, StepState } from "../../journal/types";
import type { Book, Caution } from "../../measure/book";
import { Button } from "../../ui/button";
import { Disclosure } from "../../ui/disclosure";
import { useBay } from "./context";
import { useDraft } from "./draft";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { Screen } from "./shell";
import { vehicleName } from "./vehicle";

/** The ids of the cautions read on this card, how to change them, and whether they are known yet. */
export function useCautionsRead(card: OpenCard) {
  return useDraft<string[]>(`cautions-read/${card.id}`, asIds);
}

type GateProps = { card: OpenCard; state: CardState; step: StepState; children: ComponentChildren };

/** Shows the page of cautions nobody read on this card yet; then the check. */
export function CautionGate({ card, state, step, children }: GateProps) {
  const { book } = useBay();
  const [read, setRead, ready] = useCautionsRead(card);
  if (!ready) return null;
  const checklist = state.checklists.find((one) => one.checklist.id === step.step.checklist)?.checklist;
  const wanted = [...new Set([...(checklist?.cautions ?? []), ...step.step.check.cautions])];
  const unread = worstFirst(wanted, book).filter((id) => !read?.includes(id));
  if (unread.length === 0) return <>{children}</>;
  return (
    <Screen
      title={say("cautions-title")}
      kicker={vehicleName(state)}
      back={{ at: "card", card: card.id }}
      card={card}
      foot={
        <Button look="strong" wide calm onTap={() => setRead([...(read ?? []), ...unread])}>
          {say("cautions-read")}
        </Button>
      }
    >
      <div class="stack-wide">
        <p class="soft">{checklist?.title}</p>
        {unread.map((id) => {
          const caution = book.cautions[id];
          return caution ? <CautionBlock key={id} caution={caution} /> : null;
        })}
        {checklist?.not_instead_of ? <p>{checklist.not_instead_of}</p> : null}
        <p class="soft">{say("maker-first")}</p>
      </div>
    </Screen>
  );
}

export function CautionBlock({ caution }: { caution: Caution }) {
  return (
    <section class={`caution is-${caution.level}`}>
      <h2>
        <span class="caution-level">{say(`level-${caution.level}`)}</span> {caution.title}
      </h2>
      <p>{caution.says}</p>
      <p class="soft">{say("source", { source: caution.source })}</p>
    </section>
  );
}

/** The check's own cautions, already read, one tap away. */
export function CautionLine({ ids }: { ids: readonly string[] }) {
  const { book } = useBay();
  const cautions = worstFirst(ids, book)
    .map((id) => book.cautions[id])
    .filter((one) => one !== undefined);
  if (cautions.length === 0) return null;
  return (
    <Disclosure title={lineOf(cautions)}>
      {cautions.map((one) => (
        <CautionBlock key={one.id} caution={one} />
      ))}
    </Disclosure>
  );
}

function lineOf(cautions: Caution[]): string {
  const [first, ...others] = cautions;
  if (!first) return "";
  const worst = `${say(`level-${first.level}`)}: ${first.title}`;
  return others.length === 0 ? worst : `${worst} · ${say("and-more", { n: others.length })}`;
}

const LEVELS: readonly Caution["level"][] = ["danger", "warning", "caution", "notice"];

/** Those of the book, the gravest level first. */
function worstFirst(ids: readonly string[], book: Book): string[] {
  const rank = (id: string) => LEVELS.findIndex((level) => book.cautions[id]?.level === level);
  return ids.filter((id) => rank(id) >= 0).sort((a, b) => rank(a) - rank(b));
}

function asIds(kept: unknown): string[] | null {
  return Array.isArray(kept) ? kept.filter((id) => typeof id === "string") : null;
}
