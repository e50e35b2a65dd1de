/** "Could not check", with the reason: one tap, except for "other", which wants words; leaving keeps those. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { NotCheckedReason } from "../../journal/types";
import { Button } from "../../ui/button";
import { makeGate } from "../../ui/calm";
import { Choice } from "../../ui/choice";
import { Field } from "../../ui/field";
import { asText, useDraft } from "./draft";
import { useKeeping, type By, type OnKept, type OnLeaving } from "./keeping";
import type { Note } from "./note";
import type { OpenCard } from "./open-card";
import { say } from "./say";

const REASONS: readonly NotCheckedReason[] = [
  "no-access",
  "not-fitted",
  "no-tool",
  "unsafe",
  "no-time",
  "customer-declined",
  "other",
];

type Props = {
  card: OpenCard;
  slot: string;
  note: Note;
  onKept: OnKept;
  onLeaving: OnLeaving;
  onClose: () => void;
};

export function NotChecked({ card, slot, note, onKept, onLeaving, onClose }: Props) {
  const [other, setOther] = useState(false);
  const [half, setHalf, , latest] = useDraft(`${card.id}/${slot}/why-not`, asText);
  const words = half ?? "";
  const gate = useRef(makeGate());
  const keep = async (reason: NotCheckedReason, why: string, by: By) => {
    // What was noted at a check that could not be done goes with the reason.
    const noted = note.words();
    const body = {
      reason,
      words: [why, noted].filter((text, at) => text && (at === 0 || text !== why)).join("\n"),
    };
    const kept = await card.amend(slot, () => ({ kind: "not-checked", body }));
    if (kept === null || kept === "unchanged") return;
    setHalf(null);
    note.carried(noted);
    if (by === "tap") onClose();
    onKept(kept.entry, kept.before, { by });
  };
  const written = () => (other ? (latest() ?? "").trim() || null : null);
  const keepOther = useKeeping(written, (why, by) => keep("other", why, by));
  useEffect(() => onLeaving(() => void keepOther("leaving")), []);
  if (other)
    return (
      <div class="stack">
        <Field label={say("reason-words")} value={words} onType={setHalf} lines />
        <Button look="strong" calm disabled={words.trim() === ""} onTap={() => void keepOther("tap")}>
          {say("keep")}
        </Button>
      </div>
    );
  return (
    <div class="reasons" role="group" aria-label={say("could-not-check")}>
      <p class="field-name">{say("could-not-check-why")}</p>
      {REASONS.map((reason) => (
        <Choice
          key={reason}
          label={say(`reason-${reason}`)}
          onTap={(at) => {
            if (reason === "other") setOther(true);
            else if (gate.current.pass(at)) void keep(reason, "", "tap");
          }}
        />
      ))}
    </div>
  );
}
