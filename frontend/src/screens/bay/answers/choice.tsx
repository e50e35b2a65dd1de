/** A plain choice: one tap records it. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { AnswerSpec } from "../../../measure/book";
import { makeGate, QUIET_MS } from "../../../ui/calm";
import { Choice } from "../../../ui/choice";
import { answerOf, keepAnswer, type AnswerProps } from "./answer";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "choice" }> };

export function ChoiceAnswer(props: Props) {
  const { spec, outcome } = props;
  const gate = useRef(makeGate());
  const deaf = useDeafAtFirst();
  const answer = answerOf(outcome);
  return (
    <div class="stack" role="group" aria-label={props.step.step.check.ask}>
      {spec.options.map((option) => (
        <Choice
          key={option.id}
          label={option.label}
          pressed={answer?.is === "choice" && answer.choice === option.id}
          disabled={deaf}
          onTap={(at) => {
            if (gate.current.pass(at)) void keepAnswer(props, { is: "choice", choice: option.id });
          }}
        />
      ))}
    </div>
  );
}

/** The last tap of a storm must not answer the check that has just come up under the thumb. */
function useDeafAtFirst(): boolean {
  const [deaf, setDeaf] = useState(true);
  useEffect(() => {
    const timer = setTimeout(() => setDeaf(false), QUIET_MS / 2);
    return () => clearTimeout(timer);
  }, []);
  return deaf;
}
