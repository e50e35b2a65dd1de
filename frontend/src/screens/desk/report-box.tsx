/** The report of a signed card: opened here, or e-mailed. */
import { useState } from "preact/hooks";
import { reportUrl } from "../../api/api";
import type { CardState, EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { factText } from "../bay/vehicle";
import { useDesk } from "./context";
import { failureWords } from "./failure";
import { tell } from "./tell";

type Props = { state: CardState; signed: EntryOf<"signed-off">; changed: boolean };

export function ReportBox({ state, signed, changed }: Props) {
  const { revision, without_photos: without } = signed.body;
  const { to, setTo, busy, told, send } = useMailing(state, revision);
  return (
    <div class="stack">
      {changed ? <p class="told plain">{tell("sign-again", { n: revision + 1 })}</p> : null}
      {without ? (
        <p class="told plain" dir="auto">
          {tell("signed-without-photos", { count: without.missing.length, why: without.why })}
        </p>
      ) : null}
      <a
        class={changed ? "button" : "button strong"}
        href={reportUrl(state.card, revision)}
        target="_blank"
        rel="noopener"
      >
        {tell("report-pdf", { n: revision })}
      </a>
      <Field
        label={tell("send-to")}
        hint={to.trim() === "" ? tell("send-to-needed") : undefined}
        kind="email"
        value={to}
        onType={setTo}
        onLeave={setTo}
      />
      <Button calm disabled={busy || to.trim() === ""} onTap={() => void send()}>
        {busy ? tell("sending") : tell("send-report")}
      </Button>
      {told ? (
        <p class="told" role={told.ok ? "status" : "alert"}>
          {told.words}
        </p>
      ) : null}
    </div>
  );
}

function useMailing(state: CardState, revision: number) {
  const { api } = useDesk();
  const [to, setTo] = useState(factText(state, "customer/email"));
  const [told, setTold] = useState<{ ok: boolean; words: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const send = async () => {
    setBusy(true);
    const answer = await api.sendReport(state.card, revision, to.trim());
    setBusy(false);
    const ok = answer.is === "ok";
    setTold({ ok, words: ok ? tell("report-sent", { to: to.trim() }) : failureWords(answer) });
  };
  return { to, setTo, busy, told, send };
}
