/** An answer in words. */
import { Button } from "../../../ui/button";
import { Field } from "../../../ui/field";
import { asText, useDraft } from "../draft";
import { say } from "../say";
import { answerOf, keepAnswer, type AnswerProps } from "./answer";

export function TextAnswer(props: AnswerProps) {
  const { card, outcome } = props;
  const [held, setDraft, ready] = useDraft(`${card.id}/${outcome.slot}`, asText);
  const standing = answerOf(outcome);
  const words = held ?? (standing?.is === "text" ? standing.words : "");
  const keep = async () => {
    if (await keepAnswer(props, { is: "text", words: words.trim() })) setDraft(null);
  };
  if (!ready) return null;
  return (
    <div class="stack">
      <Field label={say("in-words")} value={words} onType={setDraft} onLeave={setDraft} lines />
      <Button look="strong" wide calm disabled={words.trim() === ""} onTap={() => void keep()}>
        {say("keep")}
      </Button>
    </div>
  );
}
