/** "Could not check", with the reason: one tap, except for "other", which wants words. */
import { useRef, useState } from "preact/hooks";
import type { Entry, NotCheckedReason } from "../../journal/types";
import { Button } from "../../ui/button";
import { makeGate } from "../../ui/calm";
import { Choice } from "../../ui/choice";
import { Field } from "../../ui/field";
import { asText, useDraft } from "./draft";
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
  onKept: (entry: Entry, before: Entry | null) => void;
  onClose: () => void;
};

export function NotChecked({ card, slot, onKept, onClose }: Props) {
  const [other, setOther] = useState(false);
  const [half, setHalf] = useDraft(`${card.id}/${slot}/why-not`, asText);
  const words = half ?? "";
  const gate = useRef(makeGate());
  const keep = async (reason: NotCheckedReason) => {
    const before = card.standing(slot);
    const entry = await card.keep("not-checked", slot, {
      reason,
      words: reason === "other" ? words.trim() : "",
    });
    if (!entry) return;
    setHalf(null);
    onClose();
    onKept(entry, before);
  };
  if (other)
    return (
      <div class="stack">
        <Field label={say("reason-words")} value={words} onType={setHalf} lines />
        <Button look="strong" calm disabled={words.trim() === ""} onTap={() => void keep("other")}>
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
            else if (gate.current.pass(at)) void keep(reason);
          }}
        />
      ))}
    </div>
  );
}
