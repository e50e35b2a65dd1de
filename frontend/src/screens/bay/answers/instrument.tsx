/** With what it is measured: chosen once per walk for each set of instruments, and remembered. */
import { useState } from "preact/hooks";
import { Button } from "../../../ui/button";
import { Pick } from "../../../ui/choice";
import { useBay } from "../context";
import { asText, useDraft } from "../draft";
import { say } from "../say";

/** The chosen instrument's id ("" when none is), whether one must be chosen first, and the control to choose it. */
export function useInstrument(card: string, ids: readonly string[]) {
  const [chosen, choose, ready] = useDraft(`instrument/${card}/${ids.join("+")}`, asText);
  const only = ids.length === 1 ? ids[0] : undefined;
  const picked = chosen ?? only ?? "";
  // Nothing is asked before it is known whether it was answered: the question must not flash up.
  const control = ready || only ? <Instrument ids={ids} picked={picked} onPick={choose} /> : null;
  return { picked, control, missing: ids.length > 0 && picked === "" };
}

type Props = { ids: readonly string[]; picked: string; onPick: (id: string) => void };

function Instrument({ ids, picked, onPick }: Props) {
  const { book } = useBay();
  const [changing, setChanging] = useState(false);
  if (ids.length === 0) return null;
  const title = (id: string) => whole(book.instruments[id]?.title ?? id);
  if (picked !== "" && !changing)
    return (
      <Button look="quiet" disabled={ids.length < 2} onTap={() => setChanging(true)}>
        {say("measured-with", { what: title(picked) })}
      </Button>
    );
  return (
    <Pick
      legend={say("measured-with-which")}
      picked={picked || null}
      options={ids.map((id) => ({ id, label: title(id) }))}
      onPick={(id) => {
        setChanging(false);
        onPick(id);
      }}
    />
  );
}

/** A figure and the unit behind it stay on one line. */
function whole(title: string): string {
  return title.replace(/(\d) (?=\S{1,4}$)/u, "$1\u00a0");
}
