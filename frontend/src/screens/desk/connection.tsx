/** Whether the desk and the server hear each other, and what works while they do not. */
import type { Services } from "../../sync/services";
import { formatDateTime, formatTime } from "../../words/words";
import { Button } from "../../ui/button";
import { counts } from "../bay/shell";
import { say } from "../bay/say";
import { failureWords } from "./failure";
import { tell } from "./tell";

/** One short line for the top of the desk. */
export function SentLine({ services }: { services: Services }) {
  const { toSend, refused } = counts(services.waiting.value);
  const { last_contact } = services.sender.status.value;
  const sent = toSend === 0 ? tell("nothing-waits") : tell("waits-here", { count: toSend });
  const met = last_contact === null ? "" : ` · ${tell("server-met", { when: formatTime(last_contact) })}`;
  return (
    <span role="status">
      {sent}
      {refused > 0 ? ` · ${tell("refused", { count: refused })}` : met}
    </span>
  );
}

/** Said in full only when something is wrong. */
export function Trouble({ services }: { services: Services }) {
  const { problem, phase, last_contact } = services.sender.status.value;
  const fault = services.trouble.value;
  const words = fault
    ? say(`fault-${fault}`)
    : phase === "sign-in-needed"
      ? tell("sign-in-again")
      : problemWords();
  if (words === null) return null;
  return (
    <div class="told desk-trouble" role="alert">
      <p>{words}</p>
      <Button onTap={() => services.sender.tell({ is: "woke", why: "asked" })}>{tell("try-now")}</Button>
    </div>
  );

  function problemWords(): string | null {
    switch (problem?.is) {
      case undefined:
        return null;
      case "unreachable":
        return last_contact === null
          ? tell("server-silent")
          : tell("server-silent-since", { when: formatDateTime(last_contact) });
      case "not-our-server":
        return tell("not-baycard");
      case "store":
        return say(`fault-${problem.fault}`);
      case "problem":
        return failureWords(problem);
    }
  }
}
