/** The foreman's hand: send back with a remark, sign off, open the report and e-mail it. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { useBay } from "../bay/context";
import type { OpenCard } from "../bay/open-card";
import { EarlierReports } from "./earlier-reports";
import { ReportBox } from "./report-box";
import { SendBack } from "./send-back";
import { SignOffForm } from "./sign-off";
import { stageText } from "./stage-line";
import { tell } from "./tell";
import { Trail } from "./trail";

type Props = { card: OpenCard; state: CardState; photosWaiting: number };
type Doing = "nothing" | "sending-back" | "signing";

export function Decide({ card, state, photosWaiting }: Props) {
  const [doing, setDoing] = useState<Doing>("nothing");
  const section = useFocusBack(doing);
  const { me } = useBay();
  const { stage } = state;
  const stop = () => setDoing("nothing");
  const may = me.person.role !== "technician";
  const isSettled = stage.is === "signed" && !stage.changedSince;
  return (
    <section ref={section} class="stack desk-decide" aria-labelledby="sign-off">
      <h2 id="sign-off" tabIndex={-1}>
        {tell("decide")}
      </h2>
      <p class="desk-stage">
        <strong>{stageText(stage)}</strong>
      </p>
      {stage.is === "handed-in" && stage.entry.body.words ? (
        <p dir="auto">{tell("handed-in-words", { words: stage.entry.body.words })}</p>
      ) : null}
      {stage.is === "sent-back" ? (
        <p dir="auto">
          {tell("sent-back-words", { words: stage.entry.body.words })}
          {stage.entry.body.slots.length > 0
            ? ` (${tell("sent-back-checks", { count: stage.entry.body.slots.length })})`
            : ""}
        </p>
      ) : null}
      <Trail state={state} slot="stage" />
      {stage.is === "signed" ? (
        <ReportBox state={state} signed={stage.entry} changed={stage.changedSince} />
      ) : null}
      <EarlierReports state={state} />
      {may ? null : <p class="told plain">{tell("only-foreman")}</p>}
      {may && doing === "nothing" ? (
        <div class="row desk-deeds">
          <Button look={isSettled ? "plain" : "strong"} onTap={() => setDoing("signing")}>
            {tell(isSettled ? "sign-off-again" : "sign-off")}
          </Button>
          <Button onTap={() => setDoing("sending-back")}>{tell("send-back")}</Button>
        </div>
      ) : null}
      {doing === "sending-back" ? <SendBack card={card} state={state} onDone={stop} /> : null}
      {doing === "signing" ? (
        <SignOffForm card={card} state={state} photosWaiting={photosWaiting} onDone={stop} />
      ) : null}
    </section>
  );
}

/** When a form closes, a keyboard goes on at the button that opened it, or at the heading when that is gone. */
function useFocusBack(doing: Doing) {
  const section = useRef<HTMLElement>(null);
  const before = useRef<Doing>(doing);
  useEffect(() => {
    const closed = before.current;
    before.current = doing;
    if (doing !== "nothing" || closed === "nothing") return;
    const [sign, back] = section.current?.querySelectorAll<HTMLElement>(".desk-deeds button") ?? [];
    const opener = closed === "signing" ? sign : back;
    (opener ?? section.current?.querySelector<HTMLElement>("h2"))?.focus();
  }, [doing]);
  return section;
}
