/** Who recorded something and when; what stood there before is one tap away. */
import { useState } from "preact/hooks";
import type { CardState, Entry } from "../../journal/types";
import { formatDateTime } from "../../words/words";
import { useBay } from "../bay/context";
import { useName } from "./context";
import { entryWords } from "./entry-words";
import { doubtOf, historyOf } from "./history";
import { spanText } from "./span";
import { tell } from "./tell";

type Props = { state: CardState; slot: string };

/** The author and time of what stands, opening into every entry the slot ever had. */
export function Trail({ state, slot }: Props) {
  const [open, setOpen] = useState(false);
  const entries = historyOf(state, slot);
  const standing = state.standing.get(slot) ?? [];
  const last = standing.at(-1);
  if (!last) return null;
  return (
    <details class="desk-trail" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <Who entry={last} state={state} />
        {entries.length > 1 ? ` · ${tell("entries", { count: entries.length })}` : ""}
      </summary>
      {open ? (
        <ol>
          {entries.map((entry) => (
            <li key={entry.id}>
              <Who entry={entry} state={state} />: <span dir="auto">{entryWords(entry, state)}</span>{" "}
              <span class="soft">{tell(standing.includes(entry) ? "stands" : "replaced")}</span>
            </li>
          ))}
        </ol>
      ) : null}
    </details>
  );
}

/** "Tom Abara, 25 Nov 2026, 09:14", with a mark where that clock was not right. */
export function Who({ entry, state }: { entry: Entry; state: CardState }) {
  const { nowMs } = useBay();
  const doubt = clockWords(entry, state, nowMs());
  return (
    <>
      {tell("who-when", { name: useName(entry.author), when: formatDateTime(entry.made_at) })}
      {doubt ? <strong class="desk-doubt"> {doubt}</strong> : null}
    </>
  );
}

/** What the phone itself knew of its clock goes before what can only be concluded. */
function clockWords(entry: Entry, state: CardState, nowMs: number): string | null {
  const off = entry.clock_off_ms;
  if (off !== undefined)
    return tell(off > 0 ? "clock-was-ahead" : "clock-was-behind", { span: spanText(Math.abs(off)) });
  const doubt = doubtOf(entry, state, nowMs);
  return doubt && tell(`clock-${doubt}`);
}
