/** Takes in a file to which a phone saved what it could not send. For those who may sign. */
import { useState } from "preact/hooks";
import type { Result } from "../../api/result";
import type { TakenIn } from "../../api/rescue";
import { Disclosure } from "../../ui/disclosure";
import { useBay } from "../bay/context";
import { vehicleName } from "../bay/vehicle";
import { go } from "../route";
import type { CardStates } from "./card-states";
import { useDesk } from "./context";
import { failureWords } from "./failure";
import { tell } from "./tell";

export function TakeIn({ states }: { states: CardStates }) {
  const { me } = useBay();
  const { outcome, busy, takeIn } = useTakingIn();
  if (me.person.role === "technician") return null;
  return (
    <Disclosure title={tell("rescue")}>
      <p>{tell("rescue-says")}</p>
      <p>{tell("rescue-shut-out")}</p>
      <div class="row">
        <FileButton busy={busy} onPicked={takeIn} />
      </div>
      {busy ? <p role="status">{tell("rescue-busy")}</p> : null}
      {outcome === null ? null : outcome.is === "ok" ? (
        <Outcome taken={outcome.value} states={states} />
      ) : (
        <p class="told" role="alert">
          {failureWords(outcome)}
        </p>
      )}
    </Disclosure>
  );
}

function useTakingIn() {
  const { api, pull } = useDesk();
  const [outcome, setOutcome] = useState<Result<TakenIn> | null>(null);
  const [busy, setBusy] = useState(false);
  const takeIn = async (file: Blob) => {
    setBusy(true);
    setOutcome(null);
    setOutcome(await api.takeIn(file));
    setBusy(false);
    pull();
  };
  return { outcome, busy, takeIn: (file: Blob) => void takeIn(file) };
}

function FileButton({ busy, onPicked }: { busy: boolean; onPicked: (file: Blob) => void }) {
  return (
    <label class="button photo-button">
      <span>{tell("rescue-choose")}</span>
      <input
        class="hidden-words"
        type="file"
        accept=".zip,application/zip"
        disabled={busy}
        aria-label={tell("rescue-choose")}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          if (file) onPicked(file);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}

function Outcome({ taken, states }: { taken: TakenIn; states: CardStates }) {
  const { entries, blobs, refused } = taken;
  const count = refused.reduce((sum, one) => sum + one.count, 0);
  const counts = { kept: entries.kept, again: entries.again, photos: blobs.kept, photos_again: blobs.again };
  return (
    <>
      <p class="told plain" role="status">
        {tell("rescue-done", counts)}
      </p>
      {count > 0 ? (
        <div class="told" role="alert">
          <p>{tell("rescue-refused", { count })}</p>
          <ul>
            {refused.map((one) => (
              <li key={one.title + one.do}>
                {tell("rescue-times", { count: one.count })} <strong>{one.title}</strong> {one.do}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      <Cards cards={taken.cards} states={states} />
    </>
  );
}

/** The cards of the file that have come down to this desk by now. */
function Cards({ cards, states }: { cards: string[]; states: CardStates }) {
  const here = cards.flatMap((card) => states.get(card) ?? []);
  if (here.length === 0) return null;
  return (
    <>
      <h3>{tell("rescue-cards")}</h3>
      <ul>
        {here.map((state) => (
          <li key={state.card} dir="auto">
            <a
              href={`/desk/${state.card}`}
              onClick={(event) => {
                event.preventDefault();
                go({ at: "desk", rest: `/desk/${state.card}` });
              }}
            >
              {vehicleName(state)}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
