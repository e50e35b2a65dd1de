/** An answer in words; those typed and not kept are kept when the check is left. */
import { useEffect } from "preact/hooks";
import { Button } from "../../../ui/button";
import { Field } from "../../../ui/field";
import { asText, useDraft } from "../draft";
import { useKeeping, type By } from "../keeping";
import { say } from "../say";
import { answerOf, keepAnswer, type AnswerProps } from "./answer";

export function TextAnswer(props: AnswerProps) {
  const { card, outcome, onLeaving } = props;
  const [held, setDraft, ready, latest] = useDraft(`${card.id}/${outcome.slot}`, asText);
  const standing = answerOf(outcome);
  const stood = standing?.is === "text" ? standing.words : "";
  const words = held ?? stood;
  const written = (by: By) => (latest() ?? (by === "tap" ? stood : "")).trim() || null;
  const keep = useKeeping(written, async (what, by) => {
    const isKept = await keepAnswer(props, { is: "text", words: what }, by);
    if (isKept) setDraft((now) => (now?.trim() === what ? null : now));
  });
  useEffect(() => onLeaving(() => void keep("leaving")), []);
  if (!ready) return null;
  return (
    <div class="stack">
      <Field label={say("in-words")} value={words} onType={setDraft} lines />
      <Button look="strong" wide calm disabled={words.trim() === ""} onTap={() => void keep("tap")}>
        {say("keep")}
      </Button>
    </div>
  );
}
