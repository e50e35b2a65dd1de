/** "This phone": what is kept, sent and waits, room left, who is signed in, and the app's version. */
import "./card-words";
import { useState } from "preact/hooks";
import type { BlobLine, OutboxLine } from "../../store/types";
import { formatAgo } from "../../words/words";
import { Button } from "../../ui/button";
import { Disclosure } from "../../ui/disclosure";
import { go, openedFrom } from "../route";
import { useBay } from "./context";
import { FeelChoice } from "./feel-choice";
import { GiveBack } from "./give-back";
import { InstallHelp } from "./install-help";
import { LanguageChoice } from "./language";
import { OwnSecret } from "./own-secret";
import { Rescue } from "./rescue";
import { PhotosSent } from "./photo-choice";
import { PhotosWait } from "./photos-wait";
import { Room } from "./room";
import { say } from "./say";
import { keptWords, Screen } from "./shell";
import { Stuck } from "./stuck";

export function Phone() {
  const { services, me, waiting } = useBay();
  const [origin] = useState(openedFrom);
  return (
    <Screen title={say("phone")} kicker={me.device.name} back={origin ?? { at: "cards" }}>
      <section class="stack">
        <h2>{keptWords(waiting.value, services.sender.status.value)}</h2>
        <PhotosWait />
        <Sending />
        <Stuck />
        <Lines />
      </section>
      <Rescue services={services} />
      <PhotosSent />
      <Room />
      <GiveBack services={services} />
      <FeelChoice />
      <LanguageChoice />
      <section class="stack">
        <h2>{say("who")}</h2>
        <p>{say("who-says", { name: me.person.name, workshop: me.workshop.name })}</p>
        <Button calm onTap={() => void services.signOut()}>
          {say("sign-out")}
        </Button>
        <p class="soft">{say("sign-out-says")}</p>
        <OwnSecret />
      </section>
      {me.person.role === "technician" ? null : (
        <Button onTap={() => go({ at: "desk", rest: "/desk" })}>{say("to-desk")}</Button>
      )}
      <InstallHelp />
      <Version />
    </Screen>
  );
}

function Sending() {
  const { services, nowMs } = useBay();
  const { phase, last_contact, problem, blob, photos_wait, out_of_step, clock_off_ms } =
    services.sender.status.value;
  return (
    <>
      <p>{say(`phase-${phase}`)}</p>
      {blob && photos_wait === null ? (
        <progress class="sent-bytes" max={blob.total} value={blob.done} aria-label={say("photo-sending")} />
      ) : null}
      {problem?.is === "problem" ? (
        <p class="told">
          {problem.code === "device-revoked" ? say("shut-out") : `${problem.title} ${problem.do}`}
        </p>
      ) : null}
      {problem?.is === "not-our-server" ? <p class="told">{say("not-our-server")}</p> : null}
      <p class="soft">
        {last_contact === null
          ? say("never-met")
          : say("last-met", { when: formatAgo(last_contact, nowMs()) })}
      </p>
      {clock_off_ms === null ? null : (
        <p class="told">{say("clock-wrong", { count: Math.round(Math.abs(clock_off_ms) / 60_000) })}</p>
      )}
      {out_of_step.length > 0 ? (
        <p class="told">{say("out-of-step", { count: out_of_step.length })}</p>
      ) : null}
      <Button onTap={() => services.sender.tell({ is: "woke", why: "asked" })}>{say("try-now")}</Button>
    </>
  );
}

/** One line per thing that waits or was refused. */
function Lines() {
  const { store, waiting } = useBay();
  const lines = [...waiting.value.entries, ...waiting.value.blobs.filter((line) => line.state !== "sent")];
  const refused = lines.filter((line) => line.state === "refused");
  const rest = lines.filter((line) => line.state === "waiting");
  return (
    <>
      {reasonsOf(refused).map(({ title, what, count }) => (
        <p key={title} class="told">
          <strong>{title}</strong> {what}
          {count > 1 ? ` · ${say("refused", { n: count })}` : ""}
        </p>
      ))}
      {refused.length > 0 ? (
        <Button calm onTap={() => void store.offerRefused()}>
          {say("offer-refused")}
        </Button>
      ) : null}
      {rest.length > 0 ? (
        <Disclosure title={say("lines", { count: rest.length })}>
          <ul class="stack">
            {rest.map((line) => (
              <Line key={idOfLine(line)} line={line} />
            ))}
          </ul>
        </Disclosure>
      ) : null}
    </>
  );
}

/** Fifty photos refused for one reason are told of once. */
function reasonsOf(refused: (OutboxLine | BlobLine)[]): { title: string; what: string; count: number }[] {
  const byTitle = new Map<string, { title: string; what: string; count: number }>();
  for (const { reason } of refused) {
    const title = reason?.title ?? say("refused-unknown");
    const told = byTitle.get(title) ?? { title, what: reason?.do ?? "", count: 0 };
    byTitle.set(title, { ...told, count: told.count + 1 });
  }
  return [...byTitle.values()];
}

function Line({ line }: { line: OutboxLine | BlobLine }) {
  const { nowMs } = useBay();
  const when = formatAgo(line.kept_at, nowMs());
  if ("sha256" in line)
    return (
      <li>
        {say("line-photo", { kb: Math.round(line.bytes / 1000), done: Math.round(line.held / 1000), when })}
      </li>
    );
  return <li>{say("line-entry", { when })}</li>;
}

function idOfLine(line: OutboxLine | BlobLine): string {
  return "sha256" in line ? line.sha256 : line.id;
}

function Version() {
  const { services, book } = useBay();
  return (
    <section class="stack">
      <h2>{say("app-version")}</h2>
      <p class="soft">
        {say("book-version", { id: book.sha256.slice(0, 8), count: book.checklists.length })}
      </p>
      {services.update.ready.value ? (
        <Button look="strong" calm onTap={() => services.update.apply()}>
          {say("update")}
        </Button>
      ) : (
        <p>{say("up-to-date")}</p>
      )}
    </section>
  );
}
