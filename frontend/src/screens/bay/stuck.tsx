/** Entries over which the server fails: which they are, why they wait, and that nobody has to do anything again. */
import "./card-words";
import { useEffect, useState } from "preact/hooks";
import type { Failure } from "../../api/result";
import { cardState } from "../../journal/card";
import type { CardState, Entry } from "../../journal/types";
import { useBay, type Bay } from "./context";
import { say } from "./say";
import { vehicleName } from "./vehicle";

type Shown = { id: string; what: string; card: string };

/** Nothing while none waits for such a reason. */
export function Stuck() {
  const bay = useBay();
  const { stuck } = bay.services.sender.status.value;
  const named = useNames(bay, stuck.map(({ id }) => id).join());
  return (
    <>
      {stuck.map(({ id, failure }) => (
        <p key={id} class="told">
          <strong>{wordsOf(named.find((one) => one.id === id))}</strong> {whyWords(failure)}{" "}
          {say("stuck-says")}
        </p>
      ))}
    </>
  );
}

function wordsOf(one: Shown | undefined): string {
  return one === undefined ? say("stuck-some") : say("stuck", one);
}

/** The server's own sentence, where it said one. */
function whyWords(failure: Failure): string {
  return failure.is === "problem" && failure.title !== "" ? failure.title : say("stuck-silent");
}

/** What these entries are; looked up again when they are others. */
function useNames(bay: Bay, ids: string): Shown[] {
  const [named, setNamed] = useState<Shown[]>([]);
  useEffect(() => {
    let gone = false;
    void namesOf(bay, ids.split(",")).then((found) => {
      if (!gone) setNamed(found);
    });
    return () => {
      gone = true;
    };
  }, [bay, ids]);
  return named;
}

async function namesOf({ store, book, waiting }: Bay, ids: string[]): Promise<Shown[]> {
  const lines = waiting.peek().entries.filter(({ id }) => ids.includes(id));
  const found: Shown[] = [];
  for (const card of new Set(lines.map((line) => line.card))) {
    const state = cardState(await store.entriesOf(card), book);
    for (const entry of state.entries)
      if (ids.includes(entry.id))
        found.push({ id: entry.id, what: whatIs(entry, state), card: vehicleName(state) });
  }
  return found;
}

function whatIs({ kind, slot }: Entry, state: CardState): string {
  const steps = state.checklists.flatMap((list) => list.steps.map(({ step }) => step));
  const step = steps.find((one) => slot.startsWith(`${one.checklist}/${one.check.id}/${one.place.id}/`));
  if (step !== undefined) return `${step.check.ask} · ${step.place.title}`;
  switch (kind) {
    case "complaint":
    case "photo":
    case "finding":
    case "finding-declined":
    case "work-done":
    case "handed-in":
      return say(kind);
    default:
      return say("stuck-entry");
  }
}
