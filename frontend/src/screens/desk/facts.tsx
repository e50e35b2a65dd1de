/** The vehicle, the complaints and what came of them, beside the findings. */
import type { CardState, ComplaintState } from "../../journal/types";
import { factText, odometerText } from "../bay/vehicle";
import { LANGUAGES } from "../../words/languages";
import { useDesk } from "./context";
import { entryWords } from "./entry-words";
import { historyOf } from "./history";
import { tell } from "./tell";
import { Trail, Who } from "./trail";

const SHOWN = [
  "vehicle/vin",
  "vehicle/plate",
  "vehicle/year",
  "vehicle/fuel",
  "vehicle/odometer",
  "vehicle/modifications",
  "card/planned-use",
  "customer/name",
  "customer/email",
  "customer/language",
] as const;
type Shown = (typeof SHOWN)[number];

export function Facts({ state }: { state: CardState }) {
  return (
    <section class="stack" aria-labelledby="facts">
      <h2 id="facts">{tell("vehicle")}</h2>
      <dl class="desk-facts">
        {SHOWN.map((slot) => {
          const value = shown(state, slot);
          return value ? (
            <div key={slot}>
              <dt>{tell(`fact-${slot}`)}</dt>
              <dd dir="auto">{value}</dd>
            </div>
          ) : null;
        })}
        <div>
          <dt>{tell("recorded-by")}</dt>
          <dd>{useAuthors(state).join(", ")}</dd>
        </div>
      </dl>
      <FactsTrail state={state} />
    </section>
  );
}

function shown(state: CardState, slot: Shown): string {
  if (slot === "vehicle/odometer") return odometerText(state);
  const text = factText(state, slot);
  return slot === "customer/language" ? (LANGUAGES.find(({ id }) => id === text)?.name ?? text) : text;
}

/** Who wrote down each fact, and what stood there before: all in one place, as there are many. */
function FactsTrail({ state }: { state: CardState }) {
  return (
    <details class="desk-trail">
      <summary>{tell("facts-trail")}</summary>
      <ol>
        {SHOWN.flatMap((slot) =>
          historyOf(state, slot).map((entry) => (
            <li key={entry.id}>
              {tell(`fact-${slot}`)}: <span dir="auto">{entryWords(entry, state)}</span> ·{" "}
              <Who entry={entry} state={state} />
            </li>
          )),
        )}
      </ol>
    </details>
  );
}

function useAuthors(state: CardState): string[] {
  const names = useDesk().names.value;
  return [...new Set(state.entries.map((entry) => entry.author))].map(
    (id) => names.get(id) ?? tell("person-unknown"),
  );
}

export function Complaints({ state }: { state: CardState }) {
  return (
    <section class="stack" aria-labelledby="complaints">
      <h2 id="complaints">{tell("complaints")}</h2>
      {state.complaints.length === 0 ? <p class="soft">{tell("no-complaints")}</p> : null}
      <ul class="stack">
        {state.complaints.map((complaint) => (
          <li key={complaint.id} class="desk-complaint" dir="auto">
            <p dir="auto">{tell("quote", { words: complaint.words })}</p>
            <Outcome complaint={complaint} state={state} />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What came of it, and the findings that answer it, each a link to it. */
function Outcome({ complaint, state }: { complaint: ComplaintState; state: CardState }) {
  const { outcome } = complaint;
  const named = [...(outcome?.body.findings ?? []), ...complaint.findings];
  const findings = state.findings.filter(({ slot }) => named.includes(slot));
  return (
    <div dir="ltr">
      <p>
        <strong>{tell(`outcome-${outcome?.body.outcome ?? "none"}`)}</strong>{" "}
        <span dir="auto">{outcome?.body.words}</span>
      </p>
      {findings.map(({ slot, entry }) => (
        <p key={slot}>
          → <a href={`#${slot}`}>{entry.body.title}</a>
        </p>
      ))}
      {outcome ? <Trail state={state} slot={outcome.slot} /> : null}
    </div>
  );
}
